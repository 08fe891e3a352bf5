// Calculators give what the command gives, and explain in place what cannot be worked.
import assert from 'node:assert/strict';
import test from 'node:test';
import { fill, plain, source, pages, work, words } from './support/product.mjs';
import { open } from './support/sheet.mjs';

const faults = words.live.faults;

async function calculator(t, relation) {
  const page = pages.find((each) => source(each).includes(`data-relation="${relation}"`));
  const sheet = await open(t, page);
  const block = sheet.locator(`.work[data-relation="${relation}"]`).first();
  const row = (name) => block.locator(`[data-input="${name}"]`);
  return {
    sheet,
    value: (name) => row(name).locator('.work-value'),
    choice: (name) => row(name).locator('.work-choice'),
    unit: (name) => row(name).locator('.work-unit'),
    fault: (name) => row(name).locator('.work-fault'),
    result: block.locator('output'),
    resultUnit: block.locator('.work-result-unit'),
  };
}

/** Puts a figure in, and leaves the field as people do. */
async function put(field, text) {
  await field.fill(text);
  await field.press('Tab');
}

test('a value, a unit and the unit of the result change what comes out', async (t) => {
  const calc = await calculator(t, 'opening_force');
  const start = { opening: `${await calc.value('opening').inputValue()} ${await calc.unit('opening').inputValue()}` };
  start.area = `${await calc.value('area').inputValue()} ${await calc.unit('area').inputValue()}`;
  const unit = await calc.resultUnit.inputValue();
  assert.equal(await calc.result.textContent(), work('opening_force', start, unit).shown);
  await put(calc.value('opening'), '137.5');
  const opening = `137.5 ${await calc.unit('opening').inputValue()}`;
  assert.equal(await calc.result.textContent(), work('opening_force', { ...start, opening }, unit).shown);
  await calc.unit('opening').selectOption('barg');
  assert.equal(await calc.result.textContent(), work('opening_force', { ...start, opening: '137.5 barg' }, unit).shown);
  await calc.resultUnit.selectOption('kN');
  assert.equal(await calc.result.textContent(), work('opening_force', { ...start, opening: '137.5 barg' }, 'kN').shown);
});

test('a figure with its own unit keeps it, and fractions are read', async (t) => {
  const calc = await calculator(t, 'opening_force');
  await put(calc.value('area'), '1 3/8 in2');
  const opening = `${await calc.value('opening').inputValue()} ${await calc.unit('opening').inputValue()}`;
  const wanted = work('opening_force', { opening, area: '1.375 in2' }, await calc.resultUnit.inputValue()).shown;
  assert.equal(await calc.result.textContent(), wanted);
  /* 1 in2 = 645.16 mm2, exactly. */
  await put(calc.value('area'), '887.095 mm2');
  assert.equal(await calc.result.textContent(), wanted);
});

test('a choice changes what comes out', async (t) => {
  const calc = await calculator(t, 'allowed_accumulation_over_mawp');
  const mawp = `${await calc.value('mawp').inputValue()} ${await calc.unit('mawp').inputValue()}`;
  const unit = await calc.resultUnit.inputValue();
  for (const name of ['single', 'several', 'fire', 'boiler']) {
    await calc.choice('case').selectOption(name);
    const { shown } = work('allowed_accumulation_over_mawp', { mawp, case: name }, unit);
    assert.equal(await calc.result.textContent(), shown, name);
  }
});

test('the result follows what is typed, and goes where that cannot be read', async (t) => {
  const calc = await calculator(t, 'opening_force');
  const area = `${await calc.value('area').inputValue()} ${await calc.unit('area').inputValue()}`;
  const [opening, unit] = [await calc.unit('opening').inputValue(), await calc.resultUnit.inputValue()];
  await calc.value('opening').press('ControlOrMeta+a');
  let typed = '';
  for (const letter of '137.5') {
    await calc.value('opening').press(letter);
    typed += letter;
    const wanted = work('opening_force', { opening: `${typed} ${opening}`, area }, unit).shown;
    assert.equal(await calc.result.textContent(), wanted, typed);
  }
  await calc.value('opening').press('x');
  assert.equal(await calc.result.textContent(), '');
  assert.equal(await calc.fault('opening').textContent(), '');
  await calc.value('opening').press('Tab');
  assert.equal(await calc.result.textContent(), words.live.work.look);
});

test('what cannot be worked is explained at its field, and only there', async (t) => {
  const calc = await calculator(t, 'opening_force');
  const good = await calc.result.textContent();
  const opening = await calc.value('opening').inputValue();
  for (const [typed, wanted] of [
    ['abc', faults.unreadable],
    ['', faults.blank],
    ['1,234', fill(faults.ambiguous, { found: '1,234 psig', one: '1234 psig', other: '1.234 psig' })],
    ['5 in', faults.unit_of_another_kind.split('{')[0]],
    ['5 <b>furlongs</b>', '<b>furlongs</b>'],
    ['-5', faults.out_of_range_above.split('{')[0]],
  ]) {
    await put(calc.value('opening'), typed);
    const told = plain(await calc.fault('opening').textContent());
    assert.ok(told.includes(plain(wanted)), `${typed}: ${told}`);
    assert.equal(await calc.fault('area').textContent(), '');
    assert.equal(await calc.value('opening').getAttribute('aria-invalid'), 'true');
    assert.equal(await calc.value('opening').getAttribute('aria-describedby'), await calc.fault('opening').getAttribute('id'));
    assert.equal(await calc.result.textContent(), words.live.work.look);
    assert.ok(!told.includes('{'), told);
  }
  await put(calc.value('opening'), opening);
  assert.equal(await calc.result.textContent(), good);
  assert.equal(await calc.fault('opening').textContent(), '');
  assert.equal(await calc.value('opening').getAttribute('aria-invalid'), null);
});
