// What is typed gets the verdict that it deserves. What is right comes from the command, never from the page.
import assert from 'node:assert/strict';
import test from 'node:test';
import { answer, draw, fill, given, mistake, someRecipes, plain, work, words } from './support/product.mjs';
import { check, practise, verdict } from './support/sheet.mjs';

const says = words.live.verdicts;

/** A seed whose answer has four digits before the point, so that a comma in it can be read in two ways. */
function thousands(recipe, part) {
  /* From one that has it as the course is now. */
  for (let seed = 10026; seed < 10126; seed += 1) {
    const drawn = draw(recipe, seed);
    const { value } = answer(drawn, part);
    if (value >= 1000 && value < 9999) return { seed, drawn, value };
  }
  throw new Error(`${recipe}: no answer of four digits`);
}

const SEED = 48213;
const FORCE = 'Force on the disc';
const ALLOWED = 'Allowed accumulation over MAWP';
const HIGHEST = 'Highest allowed pressure, absolute';

test('right: the number alone, with its unit, and in another unit', async (t) => {
  const { block } = await practise(t, 'seat_force', SEED);
  const { value, unit } = answer(draw('seat_force', SEED), 'force');
  const bare = await check(block, FORCE, value.toPrecision(4));
  assert.equal(bare.word, says.right.word);
  assert.equal(bare.role, 'status');
  assert.equal(bare.shape, 'good');
  assert.ok(bare.text.includes(fill(words.live.notes.unit_assumed, { unit })), bare.text);
  assert.equal(await bare.field.getAttribute('aria-invalid'), 'false');
  const whole = await check(block, FORCE, `${value.toPrecision(4)} ${unit}`);
  assert.equal(whole.text, says.right.word);
  /* 1 lbf = 4.4482216152605 N, exactly (NIST SP 811, B.8). */
  const newtons = await check(block, FORCE, `${(value * 4.4482216152605).toPrecision(4)} N`);
  assert.equal(newtons.word, says.right.word);
});

test('right number, wrong unit: half the credit, and the unit that is asked', async (t) => {
  const { block } = await practise(t, 'seat_force', SEED);
  const { value, unit } = answer(draw('seat_force', SEED), 'force');
  const seen = await check(block, FORCE, `${value.toPrecision(4)} N`);
  assert.equal(seen.word, says.wrong_unit.word);
  assert.equal(seen.shape, 'part');
  assert.ok(seen.text.includes(fill(says.wrong_unit.text, { unit })), seen.text);
  assert.ok(seen.text.includes(words.live.notes.half), seen.text);
});

test('a named mistake is told in the words of its author', async (t) => {
  const { block } = await practise(t, 'seat_force', SEED);
  const drawn = draw('seat_force', SEED);
  const opening = given(drawn, 'opening').text;
  const seat = given(drawn, 'seat').value;
  const force = (area) => work('opening_force', { opening, area: `${area} in2` }, 'lbf').value;
  const round = work('bore_area', { bore: `${2 * seat} in` }, 'in2').value;
  const cases = { square_hole: force(seat * seat), diameter_as_radius: force(round) };
  for (const [name, value] of Object.entries(cases)) {
    const seen = await check(block, FORCE, `${value.toPrecision(5)} lbf`);
    assert.equal(seen.word, says.mistake.word, name);
    assert.equal(seen.shape, 'miss');
    assert.ok(seen.text.includes(mistake('seat_force', name, drawn)), seen.text);
  }
});

test('gauge for absolute is told as what it is, however it is written', async (t) => {
  const drawn = draw('allowed_over_mawp', SEED);
  const { block } = await practise(t, 'allowed_over_mawp', SEED);
  const limit = given(drawn, 'mawp').value + answer(drawn, 'allowed').value;
  const gauge = Math.floor(limit * 10) / 10;
  const absolute = work('absolute_pressure', { gauge: `${gauge} psig` }, 'psia').value;
  for (const typed of [`${gauge}`, `${gauge} psi`, `${gauge} psia`, `${gauge} psig`]) {
    const seen = await check(block, HIGHEST, typed);
    assert.equal(seen.word, says.slip.word, typed);
    assert.ok(seen.text.includes(plain(words.live.slips.gauge_for_absolute)), `${typed}: ${seen.text}`);
  }
  const right = await check(block, HIGHEST, `${Math.floor(absolute * 10) / 10} psi`);
  assert.equal(right.word, says.right.word);
  assert.ok(right.text.includes(words.live.notes.taken_as_absolute), right.text);
});

test('a common slip is found without its author: the decimal point, and a unit that was not converted', async (t) => {
  const { block } = await practise(t, 'seat_force', SEED);
  const { value } = answer(draw('seat_force', SEED), 'force');
  const decade = await check(block, FORCE, `${(value * 10).toPrecision(4)} lbf`);
  assert.ok(decade.text.includes(plain(words.live.slips.decade)), decade.text);
  const unit = await check(block, FORCE, `${(value * 4.4482216152605).toPrecision(4)} lbf`);
  assert.ok(unit.text.includes(fill(plain(words.live.slips.unit_not_converted), { other_unit: 'N' })), unit.text);
});

test('a wrong number is not accused of anything', async (t) => {
  const { block } = await practise(t, 'seat_force', SEED);
  const { value } = answer(draw('seat_force', SEED), 'force');
  const seen = await check(block, FORCE, (value * 1.7).toPrecision(4));
  assert.equal(seen.word, says.wrong.word);
  // The force is the pressure times the area, so the area comes first.
  const first = words.relations.bore_area.title;
  assert.ok(seen.text.includes(fill(plain(says.wrong.text), { compare: first })), seen.text);
});

test('rubbish is said to be unreadable, and stays text', async (t) => {
  const { sheet, block } = await practise(t, 'seat_force', SEED);
  for (const typed of ['abc', '12 34', '1.2.3', '<img src=x onerror=alert(1)>', '9'.repeat(1000)]) {
    const seen = await check(block, FORCE, typed);
    assert.equal(seen.word, says.unreadable.word, typed);
    assert.equal(seen.shape, 'ask');
    assert.ok(seen.text.includes(fill(plain(says.unreadable.text), { unit: 'lbf' })), seen.text);
    assert.equal(await seen.field.getAttribute('aria-invalid'), 'true');
  }
  const strange = await check(block, FORCE, '5 <b>furlongs</b>');
  assert.ok(strange.text.includes('<b>furlongs</b>'), strange.text);
  assert.equal(await sheet.locator('main img[src="x"], .part-verdict b').count(), 0);
});

test('a blank answer is asked for, not marked', async (t) => {
  const { block } = await practise(t, 'seat_force', SEED);
  for (const typed of ['', '   ']) {
    const seen = await check(block, FORCE, typed);
    assert.equal(seen.word, says.blank.word);
    assert.equal(seen.shape, 'ask');
  }
});

test('an ambiguous number is asked about once, and the chosen reading is marked', async (t) => {
  const { seed, value } = thousands('seat_force', 'force');
  const { block } = await practise(t, 'seat_force', seed);
  const whole = Math.round(value);
  const typed = `${Math.floor(whole / 1000)},${String(whole).slice(-3)} lbf`;
  const seen = await check(block, FORCE, typed);
  assert.equal(seen.word, says.ambiguous.word);
  assert.ok(seen.text.includes(fill(says.ambiguous.text, { written: typed })), seen.text);
  const readings = seen.status.getByRole('button');
  assert.deepEqual(await readings.allTextContents(), [`${whole} lbf`, `${(whole / 1000).toFixed(3)} lbf`]);
  await readings.first().click();
  assert.equal((await verdict(block, FORCE)).word, says.right.word);
  assert.equal(await seen.field.inputValue(), `${whole} lbf`);
  assert.ok(await seen.field.evaluate((field) => field === document.activeElement));
  await check(block, FORCE, typed);
  await readings.last().click();
  assert.ok((await verdict(block, FORCE)).text.includes(plain(words.live.slips.decade)));
});

test('a unit of another kind is told apart from a wrong number', async (t) => {
  const { block } = await practise(t, 'seat_force', SEED);
  const seen = await check(block, FORCE, '12 in');
  const { units } = draw('seat_force', SEED).parts[0];
  assert.equal(seen.word, says.wrong_kind.word);
  const text = fill(says.wrong_kind.text, { typed_unit: 'in', units: units.join(', ') });
  assert.ok(seen.text.includes(plain(text)), seen.text);
});

test('beyond a limit is on the unsafe side, below it is right within the tolerance', async (t) => {
  for (const [recipe, label, part] of [
    ['allowed_over_mawp', ALLOWED, 'allowed'],
    ['allowed_over_low_mawp', 'Highest allowed pressure', 'highest'],
  ]) {
    const { value, unit } = answer(draw(recipe, SEED), part);
    const { block } = await practise(t, recipe, SEED);
    const over = await check(block, label, `${(value * 1.003).toPrecision(6)} ${unit}`);
    assert.equal(over.word, says.unsafe.word, recipe);
    assert.equal(over.shape, 'alarm');
    assert.ok(over.text.includes(plain(says.unsafe.text)), over.text);
    const far = await check(block, label, `${(value * 1.313).toPrecision(6)} ${unit}`);
    assert.ok(far.text.startsWith(far.word + words.live.notes.unsafe_side), `the side comes first: ${far.text}`);
    assert.equal((await check(block, label, `${(value * 0.997).toPrecision(6)} ${unit}`)).word, says.right.word, recipe);
  }
});

test('parts are marked each for itself', async (t) => {
  const drawn = draw('allowed_over_mawp', SEED);
  const { sheet, block } = await practise(t, 'allowed_over_mawp', SEED);
  await check(block, ALLOWED, answer(drawn, 'allowed').shown);
  assert.equal((await verdict(block, ALLOWED)).word, says.right.word);
  assert.equal(await block.locator('.verdict').count(), 1);
  await block.getByLabel(HIGHEST, { exact: true }).fill('1');
  await block.getByRole('button', { name: words.live.practice.check, exact: true }).click();
  assert.equal((await verdict(block, ALLOWED)).word, says.right.word);
  assert.equal((await verdict(block, HIGHEST)).word, says.wrong.word);
  assert.equal(await sheet.locator('.verdict').count(), 2);
});

test('the answer as it is shown is right, for the numbers of recipes in the two systems in turn', async (t) => {
  for (const [place, recipe] of someRecipes.entries()) {
    const units = ['us', 'si'][place % 2];
    const drawn = draw(recipe, SEED, units);
    const numbers = drawn.parts.filter((each) => each.form === 'number');
    if (numbers.length === 0) continue;
    const { block } = await practise(t, recipe, SEED, units);
    for (const part of numbers) {
      const seen = await check(block, part.label, answer(drawn, part.id).shown);
      assert.equal(seen.word, says.right.word, `${recipe} ${units} ${part.id}: ${seen.text}`);
    }
  }
});

test('a choice: nothing chosen, a wrong one with the reason, the right one', async (t) => {
  const drawn = draw('which_accumulation', SEED);
  const { block } = await practise(t, 'which_accumulation', SEED);
  const [part] = drawn.parts;
  const right = part.options.find((option) => option.id === drawn.answers[0].exact);
  const wrong = part.options.find((option) => option.html === 'the blowdown');
  const button = block.getByRole('button', { name: words.live.practice.check });
  const status = block.getByRole('status');
  await button.click();
  assert.ok((await status.textContent()).includes(says.blank_option.word));
  await block.getByLabel(wrong.html, { exact: true }).check();
  await button.click();
  const text = await status.textContent();
  assert.ok(text.startsWith(says.wrong_option.word), text);
  assert.ok(text.includes('Blowdown needs the reseating pressure'), text);
  await block.getByLabel(right.html, { exact: true }).check();
  await button.click();
  assert.ok((await status.textContent()).startsWith(says.right.word));
});
