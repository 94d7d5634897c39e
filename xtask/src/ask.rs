//! Asks a question at the door, without a browser.

use std::{
    fmt::{self, Display, Formatter},
    fs,
    io::{self, BufRead, Read, Write},
    path::PathBuf,
    process::ExitCode,
};

use clap::Args;
use pegline_core::{
    ask::{Answer, ask},
    garden::Garden,
    given::Refusal,
    journal::file,
};
use serde_json::Value;

/// Where the questions come from and what garden they are about.
#[derive(Args)]
pub(crate) struct Options {
    /// One question a line in, one answer or refusal a line out, in order.
    #[arg(long)]
    lines: bool,
    /// A record, as it is handed over, that questions may refer to.
    #[arg(long, value_name = "FILE")]
    garden: Option<PathBuf>,
}

/// Answers standard input on standard output; exit code 2 where a single question was refused.
pub(crate) fn run(options: &Options) -> Result<ExitCode, String> {
    let garden = match &options.garden {
        None => Garden::default(),
        Some(path) => {
            let text = fs::read_to_string(path).map_err(|error| {
                format!("The record {} can't be read: {error}.", path.display())
            })?;
            let opened = file::read(&text).map_err(|bad| bad.to_string())?;
            Garden::fold(&opened.journal)
        }
    };
    let (questions, answers) = (io::stdin().lock(), io::stdout().lock());
    let answered = if options.lines {
        lines(questions, answers, &garden).map(|()| ExitCode::SUCCESS)
    } else {
        single(questions, answers, &garden)
    };
    end(answered)
}

/// How the chore ends: a reader who has seen enough, as `| head` has, is no failure.
fn end(answered: Result<ExitCode, Broken>) -> Result<ExitCode, String> {
    match answered {
        Err(Broken::Out(error)) if error.kind() == io::ErrorKind::BrokenPipe => {
            Ok(ExitCode::SUCCESS)
        }
        answered => answered.map_err(|broken| broken.to_string()),
    }
}

/// Which way questions or answers could not go.
#[derive(Debug)]
enum Broken {
    In(io::Error),
    Out(io::Error),
}

impl Display for Broken {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::In(error) => write!(f, "Standard input can't be read: {error}."),
            Self::Out(error) => write!(f, "The answer can't be printed: {error}."),
        }
    }
}

/// One line out for each line in, whatever stands in it, so that they can be told apart by counting.
fn lines(questions: impl BufRead, mut answers: impl Write, garden: &Garden) -> Result<(), Broken> {
    for (index, line) in questions.split(b'\n').enumerate() {
        let line = line.map_err(Broken::In)?;
        let line = if index == 0 { without_mark(&line) } else { &line };
        let line = line.strip_suffix(b"\r").unwrap_or(line);
        let json = match answer(line, garden) {
            Ok(answer) => serde_json::to_string(&answer),
            Err(refusal) => serde_json::to_string(&refusal),
        };
        let json = json.map_err(|error| Broken::Out(error.into()))?;
        writeln!(answers, "{json}").map_err(Broken::Out)?;
    }
    Ok(())
}

fn single(
    mut questions: impl Read,
    mut answers: impl Write,
    garden: &Garden,
) -> Result<ExitCode, Broken> {
    let mut text = Vec::new();
    questions.read_to_end(&mut text).map_err(Broken::In)?;
    let (json, code) = match answer(without_mark(&text), garden) {
        Ok(answer) => (serde_json::to_string_pretty(&answer), ExitCode::SUCCESS),
        Err(refusal) => (serde_json::to_string_pretty(&refusal), ExitCode::from(2)),
    };
    let json = json.map_err(|error| Broken::Out(error.into()))?;
    writeln!(answers, "{json}").map_err(Broken::Out)?;
    Ok(code)
}

/// A text without the byte order mark that some editors put in front of what they save.
fn without_mark(text: &[u8]) -> &[u8] {
    text.strip_prefix("\u{feff}".as_bytes()).unwrap_or(text)
}

fn answer(text: &[u8], garden: &Garden) -> Result<Answer, Refusal> {
    let question: Value = serde_json::from_slice(text).map_err(|error| {
        let given = String::from_utf8_lossy(text);
        Refusal::of("", &given, "a question in JSON", error.to_string())
    })?;
    ask(&question, garden)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::indexing_slicing)]
mod tests {
    use super::*;

    const DAY: &str = r#"{"topic":"day-length","date":"2026-06-21","latitude":"50 N"}"#;

    fn asked(questions: &[u8]) -> Vec<Value> {
        let mut out = Vec::new();
        lines(questions, &mut out, &Garden::default()).unwrap();
        let out = String::from_utf8(out).unwrap();
        out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
    }

    fn is_answer(line: &Value) -> bool {
        line["topic"] == "day-length"
    }

    fn is_refusal(line: &Value) -> bool {
        line["refused"][0]["allowed"] == "a question in JSON"
    }

    #[test]
    fn a_line_that_is_none_is_refused_in_its_place() {
        let questions =
            [DAY.as_bytes(), b"", b"  ", b"\xff\xfe", b"{\"topic\":\"\xff\"}", DAY.as_bytes()];
        let out = asked(&questions.join(&b'\n'));
        assert_eq!(out.len(), questions.len());
        assert!(is_answer(&out[0]) && is_answer(&out[5]), "{out:?}");
        assert!(out[1..5].iter().all(is_refusal), "{out:?}");
    }

    #[test]
    fn lines_may_end_as_elsewhere_and_the_last_need_not() {
        for questions in [format!("{DAY}\r\n{DAY}\r\n"), format!("{DAY}\n{DAY}")] {
            let out = asked(questions.as_bytes());
            assert!(out.len() == 2 && out.iter().all(is_answer), "{out:?}");
        }
    }

    #[test]
    fn a_byte_order_mark_is_passed_over() {
        let marked = format!("\u{feff}{DAY}\n");
        assert!(asked(marked.as_bytes()).iter().all(is_answer));
        let mut out = Vec::new();
        single(marked.as_bytes(), &mut out, &Garden::default()).unwrap();
        assert!(is_answer(&serde_json::from_slice(&out).unwrap()));
    }

    /// A reader that has gone away.
    struct Gone;

    impl Write for Gone {
        fn write(&mut self, _: &[u8]) -> io::Result<usize> {
            Err(io::ErrorKind::BrokenPipe.into())
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn a_closed_pipe_is_no_fault_of_the_questions() {
        let garden = Garden::default();
        let many = lines(DAY.as_bytes(), Gone, &garden).map(|()| ExitCode::FAILURE);
        let one = single(DAY.as_bytes(), Gone, &garden).map(|_| ExitCode::FAILURE);
        for answered in [many, one] {
            assert_eq!(end(answered), Ok(ExitCode::SUCCESS));
        }
        assert!(end(Err(Broken::Out(io::ErrorKind::StorageFull.into()))).is_err());
    }
}
