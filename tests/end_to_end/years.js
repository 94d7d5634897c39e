// A record of many years as a phone keeps it, invented: lines under their keys. A hundred plantings stand
// in the ground at its end; of all others the beds were cleared.

/** CRC-32 as zip has it, in eight hexadecimal digits. */
function checksum(text) {
  let sum = -1;
  for (const byte of new TextEncoder().encode(text)) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = (sum >>> 1) ^ (0xedb88320 & -(sum & 1));
  }
  return (~sum >>> 0).toString(16).padStart(8, "0");
}

/** An entry's id: its moment in ten letters of base 32, then a number. */
function ulid(moment, number) {
  const letters = (n, many) => {
    let text = "";
    for (let at = 0; at < many; at += 1) {
      text = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"[n % 32] + text;
      n = Math.floor(n / 32);
    }
    return text;
  };
  return letters(moment, 10) + letters(number, 16);
}

/** So many entries over ten years up to now. */
function years(count) {
  const beds = Array.from({ length: 20 }, (_, at) => `bed-${at + 1}`);
  const crops = ["kale", "leek", "cabbage", "carrot", "swiss-chard"];
  const step = (10 * 365 * 86_400_000) / count;
  const begin = Date.now() - step * count;
  const lines = [];
  const write = (kind, about, what) => {
    const moment = Math.floor(begin + step * lines.length);
    const id = ulid(moment, lines.length);
    const when = new Date(moment).toISOString().slice(0, 16);
    const text = JSON.stringify({ v: 1, id, when, kind, about, what });
    lines.push([`pegline/e/${id}`, `${checksum(text)} ${text}`]);
  };
  write("place", {}, { latitude: "45.5 N", last_frost: "04-20", first_frost: "10-20" });
  for (const bed of beds) {
    const drip = { lines: 4, emitter_spacing: "9 in", flow: "0.5 gal/h", line_spacing: "12 in" };
    write("bed", { bed }, { name: `Bed ${bed.slice(4)}`, bed: { length: "16 ft", width: "4 ft", drip, faces: "N" } });
  }
  for (let at = 0; lines.length < count; at += 1) {
    const bed = beds[at % 20];
    const crop = crops[Math.floor(at / 20) % 5];
    // The last hundred stay: five a bed.
    if (count - lines.length <= 100) {
      write("planted", { bed }, { crop, count: 4, spacing: "18 in", at: `L${1 + (at % 4)}:${1 + (at % 5)}-${16 + (at % 5)}x5` });
    } else if (Math.floor(at / 20) % 25 === 0) write("planted", { bed }, { crop, count: 10, spacing: "18 in" });
    else if (Math.floor(at / 20) % 25 === 24) write("cleared", { bed }, {});
    else if (at % 3 === 0) write("reading", { bed }, { low: `${40 + (at % 20)} F` });
    else if (at % 3 === 1) write("watered", { bed }, { minutes: 20 + (at % 10) });
    else write("note", { bed }, { text: `What was seen on round ${at}: leaves whole, soil moist below the mulch` });
  }
  return lines;
}
