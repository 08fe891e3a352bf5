/* The record of one's practice on this device: of each recipe how often it was tried, how often it was right at the first
   check, and when it comes again; and the level that the learner works at.

   A recipe lies in one of five boxes. A clean answer, once it is due, moves it a box up, from where it comes again later;
   a miss brings it back to the first, from where it comes again at once. The waits are our own choice. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { get, set, kept } = SEATWORK;
  const KEY = 'record';
  const FORMAT = 1;
  const DAY = 24 * 60 * 60 * 1000;
  const WAITS = [0, 1, 3, 7, 21];
  const LEVELS = [1, 2, 3];
  /* So many clean answers or misses in a row change the level. */
  const RUN = 2;

  const empty = () => ({ format: FORMAT, level: { now: 1, run: 0, fixed: false }, recipes: kept.table() });

  const whole = (value, low, high) => Number.isInteger(value) && value >= low && value <= high;

  /* A moment as it is written here; a reader of dates takes much more for one. */
  const isMoment = (text) => typeof text === 'string' && Number.isFinite(Date.parse(text)) && new Date(text).toISOString() === text;

  const isEntry = ([id, entry]) => /^[a-z][a-z0-9_]*$/.test(id) && kept.isObject(entry)
    && whole(entry.tried, 0, 1e6) && whole(entry.clean, 0, entry.tried) && whole(entry.box, 1, WAITS.length)
    && isMoment(entry.due);

  const isLevel = (level) => kept.isObject(level)
    && LEVELS.includes(level.now) && whole(level.run, -RUN, RUN) && typeof level.fixed === 'boolean';

  const isRecord = (found) => kept.isObject(found) && found.format === FORMAT && isLevel(found.level)
    && kept.isObject(found.recipes) && Object.entries(found.recipes).every(isEntry);

  const levelOf = ({ now, run, fixed }) => ({ now, run, fixed });
  const entryOf = ({ tried, clean, box, due }) => ({ tried, clean, box, due });

  /* What is sound in a record, and nothing else that may be in it. */
  const sound = (found) => {
    if (!kept.isObject(found) || found.format !== FORMAT) return empty();
    const entries = Object.entries(kept.isObject(found.recipes) ? found.recipes : {}).filter(isEntry);
    return {
      format: FORMAT,
      level: isLevel(found.level) ? levelOf(found.level) : empty().level,
      recipes: kept.table(entries.map(([id, entry]) => [id, entryOf(entry)])),
    };
  };

  /* Read again each time: another page of the course may have added to it. */
  const read = () => sound(kept.parsed(get(KEY)));

  /* Whether the record is kept now. */
  const write = (record) => {
    const done = set(KEY, JSON.stringify(sound(record)));
    document.dispatchEvent(new CustomEvent('seatwork:record'));
    return done;
  };

  const isDue = (entry) => Date.parse(entry.due) <= Date.now();

  const moved = (entry, clean) => {
    const box = !clean ? 1 : isDue(entry) ? Math.min(entry.box + 1, WAITS.length) : entry.box;
    const due = clean && box === entry.box && !isDue(entry) ? entry.due
      : new Date(Date.now() + WAITS[box - 1] * DAY).toISOString();
    return { tried: entry.tried + 1, clean: entry.clean + (clean ? 1 : 0), box, due };
  };

  /* Clean answers count towards the next level where the problem was of this level or above, misses towards the one below
     where it was of this level or below. */
  const stepped = (level, of, clean) => {
    if (level.fixed || (clean ? of < level.now : of > level.now)) return level;
    const run = clean ? Math.max(level.run, 0) + 1 : Math.min(level.run, 0) - 1;
    if (Math.abs(run) < RUN) return { ...level, run };
    const now = Math.min(Math.max(level.now + Math.sign(run), LEVELS[0]), LEVELS.at(-1));
    return { ...level, now, run: 0 };
  };

  /* Notes how a problem went: `clean`, or missed. */
  const settle = (id, level, clean) => {
    const record = read();
    const entry = record.recipes[id] || { tried: 0, clean: 0, box: 1, due: new Date().toISOString() };
    record.recipes[id] = moved(entry, clean);
    record.level = stepped(record.level, level, clean);
    if (!write(record)) kept.unkept();
  };

  /* Holds a level or, when none is given, goes on following the learner from the present level. */
  const hold = (level) => {
    const record = read();
    record.level = { now: level || record.level.now, run: 0, fixed: level !== null };
    if (!write(record)) kept.unkept();
  };

  Object.assign(SEATWORK, { record: { FORMAT, LEVELS, read, write, isRecord, isDue, settle, hold } });
})();
