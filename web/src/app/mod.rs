//! The one loop: an event comes in, the state changes, markup goes out.

mod keep;
mod starts;
mod typed;
mod write;

use std::{cell::RefCell, rc::Rc};

use maud::Markup;
use pegline_core::{
    ask::{self, Answer, ask_in_turns},
    garden::Garden,
    given::{Control, Refusal},
    journal::{About, Journal, file},
    quantity::System,
    record::{self, Meeting, Side},
    text,
    time::iso,
};
use serde_json::Value;

pub use crate::state::{App, Effect};

use crate::screen::ask::About as AskedOf;
use crate::state::{Newer, Opens, TakingIn, group};
use crate::{clock::Now, demo, forms::Form, route::Route, screen, store::Store};

/// Work done in one turn, in steps of a search: some 25 ms on a phone of the middle class.
const STEPS_A_TURN: u64 = 250_000;
/// For so many turns the page goes on showing what it shows: a quarter of a second, so that what is
/// answered by then does not make it jump.
const PATIENCE: u32 = 9;
/// So soon after it wrote something a second tap on the same button is one too many.
const TAPPED_AGAIN_MS: u64 = 4_000;

impl App {
    /// The app on this store.
    pub fn new(store: Store, now: Now) -> Self {
        let mut app = Self {
            store,
            journal: Journal::default(),
            garden: Rc::default(),
            is_demo: false,
            now,
            route: Route::Ask,
            form: Form::of(fields(&Route::Ask)),
            asking: false,
            answer: None,
            working: None,
            faults: Vec::new(),
            said: None,
            undoable: Vec::new(),
            tapped: None,
            persisted: None,
            newer: Newer::No,
            opens: Opens::Unknown,
            taking_in: None,
            older: 0,
            words: RefCell::default(),
            shows_copy: false,
            sent: Form::default(),
            left: Vec::new(),
            left_at_home: Vec::new(),
            effects: Vec::new(),
            pending: Vec::new(),
            last_own: None,
            hand: None,
        };
        app.read_store();
        app.look();
        app
    }

    /// Takes one event in and gives the screen that shows what became of it.
    pub fn event(&mut self, name: &str, action: &str, fields: &Value, now: Now) -> Markup {
        self.take(name, action, fields, now);
        while self.working.is_some() {
            self.turn();
        }
        self.show()
    }

    /// Takes one event in. What it asks may not be worked out yet.
    pub fn take(&mut self, name: &str, action: &str, fields: &Value, now: Now) {
        let before = self.now.today();
        self.now = now;
        match name {
            "route" => {
                let to = Route::read(action);
                // The address follows where writing has led; what was said there stays.
                if to != self.route || self.answer.is_none() && self.said.is_none() {
                    self.go(to);
                }
            }
            "input" | "change" => {
                self.hush();
                self.asking = true;
                self.form.take(fields);
                if name == "change" {
                    self.form.leave(action);
                }
                if name == "input" && self.forget(action) {
                    self.ask_again();
                } else {
                    self.ask(&Form::filled(fields).nested());
                }
            }
            // Of a form that answers nothing yet: kept, so that no redrawing of the page loses it.
            "typed" => {
                self.tapped = None;
                self.form.take(fields);
            }
            "typed-before" => self.take_up(action),
            "submit" | "click" if self.is_tapped_again(action, fields) => {}
            "submit" | "click" => {
                let last = self.last_own;
                if action != "undo" {
                    self.hush();
                }
                self.form.take(fields);
                self.sent = Form::filled(fields);
                self.act(action);
                if self.last_own != last {
                    self.tapped = Some((action.to_owned(), fields.clone(), now.millis));
                }
            }
            "file" => {
                self.open_copy(fields.get("text").and_then(Value::as_str).unwrap_or_default())
            }
            "persisted" => self.persisted = Some(action == "yes"),
            "newer" => {
                self.newer = if action == "ready" { Newer::Waits } else { Newer::Elsewhere };
            }
            "offline" => {
                self.opens = match action {
                    "yes" => Opens::Yes,
                    "never" => Opens::Never,
                    _ => Opens::NotYet,
                };
            }
            "handed-over" => {
                self.said = handed_over(action).map(str::to_owned);
                self.shows_copy = action == "copy";
                if matches!(action, "shared" | "downloaded") {
                    self.copied();
                }
            }
            // The page came back to sight, perhaps on another day.
            "looked" => {
                self.take_kept(name, fields);
                if before != self.now.today() {
                    self.ask_again();
                }
            }
            _ => self.take_kept(name, fields),
        }
    }

    /// Whether something is being worked out still.
    pub fn works(&self) -> bool {
        self.working.is_some()
    }

    /// Whether the page should go on showing what it shows, since the answer will be there soon.
    pub fn is_soon_done(&self) -> bool {
        self.working.as_ref().is_some_and(|(_, turns)| *turns < PATIENCE)
    }

    /// Works on for one turn at what is being worked out.
    pub fn turn(&mut self) {
        let Some((mut work, turns)) = self.working.take() else {
            return;
        };
        match work.turn(STEPS_A_TURN) {
            Some(answer) => self.answered(answer),
            None => {
                if turns >= PATIENCE {
                    self.answer = None;
                }
                self.working = Some((work, turns.saturating_add(1)));
            }
        }
    }

    /// What the page's script is to do now; each is given once.
    pub fn effects(&mut self) -> Vec<Effect> {
        std::mem::take(&mut self.effects)
    }

    #[expect(clippy::too_many_lines, reason = "a table of what can be tapped")]
    fn act(&mut self, action: &str) {
        let (verb, object) = action.split_once(':').unwrap_or((action, ""));
        // What is done follows from the answer to what is asked now, never from the one before.
        while verb != "answer" && self.working.is_some() {
            self.turn();
        }
        match verb {
            "answer" => {
                self.form.submit();
                self.asking = false;
                self.ask(&self.sent.nested());
            }
            "change-question" => self.asking = true,
            "another-crop" => {
                self.asking = true;
                let next =
                    (0..).find(|at| !self.form.has(&format!("plants.{at}.crop"))).unwrap_or(0);
                self.form.put(&format!("plants.{next}.crop"), "");
            }
            "choose" => {
                if let Some((name, value)) = object.split_once('=') {
                    self.forget(name);
                    self.form.put(name, value);
                    self.ask_again();
                }
            }
            "more" | "less" => {
                let counted = self.form.text(object).trim().parse::<u32>().unwrap_or(0);
                let counted = if verb == "more" {
                    counted.saturating_add(1)
                } else {
                    counted.saturating_sub(1)
                };
                self.form.put(object, &counted.to_string());
                self.ask_again();
            }
            "picked" => self.write_picked(object),
            "write" => self.write_next(object),
            "ahead-done" => self.done_ahead(object),
            "save-bed" => self.save_bed(object),
            "save-settings" => self.save_settings(),
            "note" => self.save_note(object),
            "reading" => self.save_drafts(&|form, _| Ok(vec![record::reading(form, object)?])),
            "sow" => self.save_tray_sown(),
            "tray" => self.save_tray(object),
            "rooted" => self.save_roots(object),
            "outdoors" => self.save_day_outdoors(object),
            "round" => self.save_drafts(&|form, _| record::readings(form)),
            "seen" => self.save_drafts(&|form, _| record::seen(form)),
            "covers-off" => self.save_drafts(&|_, garden| {
                let mut off = record::uncovered(garden);
                // Those of one bed, or all.
                off.retain(|draft| object.is_empty() || draft.about.bed.as_deref() == Some(object));
                Ok(off)
            }),
            "spoken" => self.save_spoken(),
            "look" => self.save_drafts(&|form, _| Ok(vec![record::look(form, object)?])),
            "cleared" => {
                let about = About { planting: Some(object.to_owned()), ..About::default() };
                self.write_of("cleared", about, None);
            }
            "gone" => {
                self.write_of("bed", About::bed(object), Some(("gone", true.into())));
            }
            "strike" => {
                self.write_of("struck-out", About::default(), Some(("target", object.into())));
            }
            "undo" => self.undo(),
            "bring-back" => self.bring_back(object),
            "correct" => self.correct(object),
            "demo" => self.look_round(),
            "leave-demo" => {
                self.is_demo = false;
                self.read_store();
                self.form = Form::default();
                self.left = std::mem::take(&mut self.left_at_home);
                self.go(Route::Ask);
                self.effects.push(Effect::Go(Route::Ask.address()));
            }
            "hand-over" => self.effects.push(Effect::File {
                name: format!("pegline-{}.json", iso::show_date(self.now.today())),
                text: file::write(&self.journal),
                media: "application/json",
            }),
            "take-in" => self.take_in(),
            "not-in" => self.taking_in = None,
            "join-beds" | "join-plantings" => self.join(verb, object),
            "older" => self.older += screen::book::AT_ONCE,
            "forget-lost" => self.forget_lost(),
            "update" => self.effects.push(Effect::Update),
            verb if verb.starts_with("hand-") && verb != "hand-over" => self.tap(verb, object),
            "print" => self.effects.push(Effect::Print),
            _ => {}
        }
        // What was ticked off is due no more.
        if self.route == Route::Ask {
            self.ask_again();
        }
    }

    /// Says no more what was done, and offers no longer to undo it.
    fn hush(&mut self) {
        self.said = None;
        self.undoable.clear();
        self.tapped = None;
    }

    /// Whether this wrote something a moment ago, and nothing was typed since: a thumb that saw nothing
    /// happen taps again.
    fn is_tapped_again(&self, action: &str, fields: &Value) -> bool {
        self.tapped.as_ref().is_some_and(|(before, sent, millis)| {
            let soon = self.now.millis.saturating_sub(*millis) < TAPPED_AGAIN_MS;
            // The form was emptied by then, or not yet drawn anew.
            before == action && soon && (fields == sent || !Form::filled(fields).is_filled())
        })
    }

    fn go(&mut self, route: Route) {
        self.leave_form();
        let address = route.address();
        let known = self.left.iter().position(|left| left.0 == address);
        let known = known.map(|at| self.left.swap_remove(at).1);
        self.said = None;
        self.undoable.clear();
        self.shows_copy = false;
        // What was left half filled is filled in further.
        self.asking = known.is_some();
        self.older = 0;
        self.answer = None;
        self.working = None;
        self.faults.clear();
        self.form = known.unwrap_or_else(|| self.fresh_form(&route));
        self.route = route;
        self.ask_again();
    }

    /// Keeps the form of this screen for a later look, if anything was typed there.
    fn leave_form(&mut self) {
        let form = std::mem::take(&mut self.form);
        if form.is_typed_in() {
            self.left.push((self.route.address(), form));
        }
    }

    /// The form of a screen as the garden fills it in.
    fn fresh_form(&self, route: &Route) -> Form {
        let mut form = Form::of(fields(route));
        match route {
            Route::Question { topic, bed } => {
                self.fill_in_question(&mut form, topic, bed.as_deref())
            }
            Route::OfStart { topic, start } => self.fill_in_start(&mut form, topic, start),
            Route::Start(start) => {
                let seen = self.start(start).map(record::last_look);
                for (field, text) in seen.unwrap_or_default() {
                    form.set(field, &text);
                }
            }
            Route::ChangeBed(bed) => {
                if let Some(bed) = self.garden.bed(bed) {
                    form.take(&group([("bed", Value::Object(bed.shape.clone()))]));
                    form.set("bed.name", bed.name.as_str());
                }
            }
            Route::NewBed => form.set("bed.name", &self.garden.next_bed_name()),
            Route::Entry(id) => {
                if let Some(entry) = self.entry(id) {
                    form.take(&record::correction_form(entry));
                }
            }
            Route::Settings => {
                form.take(&group([("site", Value::Object(self.garden.place.clone()))]));
                form.set("units", if self.system() == System::Us { "us" } else { "metric" });
                let own = &self.garden.settings;
                form.set("wheelbarrow", own.wheelbarrow.as_deref().unwrap_or_default());
                let nerve = own.nerve.map(|nerve| nerve.to_string());
                form.set("nerve", &nerve.unwrap_or_default());
            }
            _ => {}
        }
        form
    }

    fn fill_in_question(&self, form: &mut Form, topic: &str, about: Option<&str>) {
        let of = screen::ask::question(topic).map_or(AskedOf::NoBed, |question| question.of);
        match (of, about) {
            (AskedOf::Ripening, about) => {
                screen::form::harvest::fresh(form, &self.garden, about, self.now.today());
            }
            (AskedOf::Sowing, Some(about)) => {
                screen::form::sowing::fresh(form, &self.garden, about)
            }
            (_, Some(bed)) => form.set("bed", bed),
            (AskedOf::NoBed, None) => {}
            (_, None) => {
                if let [only] = self.beds().as_slice() {
                    form.set("bed", only.id.as_str());
                }
            }
        }
    }

    /// Forgets what meant something only while that field was as it was; whether there was any.
    fn forget(&mut self, changed: &str) -> bool {
        let mut any = false;
        for name in screen::form::harvest::forgets(changed) {
            any |= self.form.forget(name);
        }
        any
    }

    // ---- Asking ----

    fn ask(&mut self, fields: &Value) {
        let Some(topic) = self.route.topic() else {
            return;
        };
        let mut question = self.question_of(fields);
        if let Value::Object(question) = &mut question {
            question.insert("topic".into(), topic.into());
            question.insert("today".into(), iso::show_date(self.now.today()).into());
        }
        self.working = Some((ask_in_turns(question, Rc::clone(&self.garden)), 0));
        self.turn();
    }

    fn answered(&mut self, answer: Result<Answer, Refusal>) {
        self.faults =
            answer.as_ref().err().map(|refusal| refusal.refused.clone()).unwrap_or_default();
        self.answer = Some(answer);
    }

    /// Asks anew what stands in the form, after the garden or the screen has changed.
    fn ask_again(&mut self) {
        let fields = self.form.nested();
        self.ask(&fields);
    }

    // ---- The record as a whole ----

    fn look_round(&mut self) {
        self.is_demo = true;
        self.journal = demo::journal(self.now.today());
        self.garden = Garden::fold(&self.journal).into();
        self.taking_in = None;
        self.leave_form();
        self.left_at_home = std::mem::take(&mut self.left);
        self.arrive(Route::Beds);
    }

    fn open_copy(&mut self, text: &str) {
        // What is taken in belongs to the own garden.
        if self.is_demo {
            return;
        }
        let (opened, said) = match file::read(text) {
            Ok(opened) => {
                let warnings = opened.warnings().join(" ");
                (Ok(opened.journal), Some(warnings).filter(|said| !said.is_empty()))
            }
            Err(bad) => {
                let why = bad.to_string();
                match bad.rescued() {
                    Some(rescued) => (Ok(rescued), Some(why)),
                    None => (Err(why), None),
                }
            }
        };
        self.taking_in = Some(opened.map(|journal| {
            let garden = Garden::fold(&journal);
            let theirs = Side { journal: &journal, garden: &garden };
            let ours = Side { journal: &self.journal, garden: &self.garden };
            let meeting = Meeting::of(ours, theirs);
            TakingIn { journal, garden, meeting }
        }));
        self.said = said;
    }

    /// Says of two beds or two plantings that they are one, or that they are two after all.
    fn join(&mut self, verb: &str, at: &str) {
        let (Some(Ok(taking_in)), Ok(at)) = (&mut self.taking_in, at.parse::<usize>()) else {
            return;
        };
        let meeting = &mut taking_in.meeting;
        let is_one = match verb {
            "join-beds" => meeting.beds.get_mut(at).map(|beds| &mut beds.is_one),
            _ => meeting.plantings.get_mut(at).map(|plantings| &mut plantings.is_one),
        };
        if let Some(is_one) = is_one {
            *is_one = !*is_one;
        }
    }

    fn take_in(&mut self) {
        let Some(Ok(TakingIn { journal: other, garden, meeting })) = self.taking_in.take() else {
            return;
        };
        let ours = Side { journal: &self.journal, garden: &self.garden };
        let drafts = meeting.drafts(ours, Side { journal: &other, garden: &garden });
        let mut lines = screen::book::lines_to_add(&self.journal, &other);
        let entries =
            text::count(u32::try_from(lines.len()).unwrap_or(u32::MAX), "entry", "entries");
        let drafts = drafts.into_iter().map(|draft| (draft, self.now.local));
        let Some(besides) = self.stamp(drafts.collect()) else {
            return;
        };
        self.journal.merge(&other);
        for entry in &besides {
            self.journal.add_entry(entry);
        }
        lines.extend(keep::lines_of(&besides));
        self.garden = Garden::fold(&self.journal).into();
        self.put(lines, format!("Taken in: {entries}"));
    }

    /// The screen as things stand.
    pub fn show(&self) -> Markup {
        match &self.route {
            Route::Ask => screen::ask::screen(self),
            Route::Question { topic, .. } | Route::OfStart { topic, .. } => {
                screen::question::screen(self, topic)
            }
            Route::Starts => screen::starts::screen(self),
            Route::NewStart => screen::starts::new(self),
            Route::Start(start) => screen::starts::one(self, start),
            Route::Beds => screen::beds::screen(self),
            Route::NewBed => screen::beds::form(self, None),
            Route::ChangeBed(bed) => screen::beds::form(self, Some(bed)),
            Route::Bed(bed) => screen::bed::screen(self, bed),
            Route::Thermometers => screen::cold::thermometers(self),
            Route::Book => screen::book::screen(self),
            Route::Entry(id) => screen::book::entry(self, id),
            Route::Settings => screen::settings::screen(self),
        }
    }
}

/// What can be typed on a screen.
fn fields(route: &Route) -> Control {
    match route {
        Route::Question { topic, .. } | Route::OfStart { topic, .. } => ask::fields(topic),
        Route::NewStart | Route::Start(_) => record::OF_TRAYS,
        Route::NewBed | Route::ChangeBed(_) => record::OF_A_BED,
        Route::Bed(_) => record::AT_A_BED,
        Route::Thermometers => record::OF_THERMOMETERS,
        Route::Entry(_) => record::OF_AN_ENTRY,
        Route::Settings => record::OF_SETTINGS,
        _ => Control::Group(&[]),
    }
}

/// What is known of a copy once the browser has it; whether it was kept, no page is told.
fn handed_over(how: &str) -> Option<&'static str> {
    Some(match how {
        "shared" => "A copy went to the app you chose",
        "downloaded" => {
            "The browser was given a copy to save. Look among your downloads whether it is there"
        }
        "copy" => "This browser neither shares nor saves files; copy the text below",
        _ => return None,
    })
}
