// The reference pages: every relation has a calculator whose state can be kept as an address, in the units of the reader.
import assert from 'node:assert/strict';
import test from 'node:test';
import { fill, words, work } from './support/product.mjs';
import { open } from './support/sheet.mjs';

const block = (sheet, relation) => sheet.locator(`.work[data-relation="${relation}"]`);

async function put(calc, name, text) {
  const field = calc.locator(`[data-input="${name}"] .work-value`);
  await field.fill(text);
  await field.press('Tab');
}

test('empty fields and the result turn to the units of the reader, what was typed keeps its own', async (t) => {
  const sheet = await open(t, 'en/relations/spring.html');
  const calc = block(sheet, 'bore_area');
  const unit = calc.locator('.work-unit');
  const result = calc.locator('.work-result-unit');
  assert.deepEqual([await unit.inputValue(), await result.inputValue()], ['in', 'in²']);
  await sheet.click('[data-set-units="si"]');
  assert.deepEqual([await unit.inputValue(), await result.inputValue()], ['mm', 'mm²']);
  await put(calc, 'bore', '50');
  const output = calc.locator('output').first();
  assert.equal(await output.textContent(), work('bore_area', { bore: '50 mm' }, 'mm2').shown);
  await sheet.click('[data-set-units="us"]');
  assert.equal(await unit.inputValue(), 'mm');
  assert.equal(await output.textContent(), work('bore_area', { bore: '50 mm' }, 'in2').shown);
});

test('the address keeps what was worked, with the numbers in the law', async (t) => {
  const sheet = await open(t, 'en/relations/orifice.html');
  const calc = block(sheet, 'full_lift');
  await put(calc, 'bore', '1 3/8 in');
  const shown = await calc.locator('output').first().textContent();
  assert.ok(new URL(sheet.url()).searchParams.get('bore').startsWith('1 3/8 in'));
  await sheet.reload();
  assert.equal(await calc.locator('output').first().textContent(), shown);
  assert.match(await calc.locator('.work-numbers').innerText(), /1 3\/8 in/);
});

test('a second result is told in words', async (t) => {
  const sheet = await open(t, 'en/relations/bench.html');
  const calc = block(sheet, 'within_tolerance');
  await calc.locator('[data-input="code"] select').selectOption('vessel');
  await put(calc, 'cold_test', '150 psig');
  await put(calc, 'found', '156 psig');
  assert.equal(await calc.locator('.work-also output').textContent(), words.choices.outside);
  await put(calc, 'found', '154.5 psig');
  assert.equal(await calc.locator('.work-also output').textContent(), words.choices.within);
  const weight = (output) => output.evaluate((element) => Number(getComputedStyle(element).fontWeight));
  const [figure, verdict] = [await weight(calc.locator('output').first()), await weight(calc.locator('.work-also output'))];
  assert.ok(verdict > figure, `the verdict is the bold line: ${verdict} against ${figure}`);
});

test('a relation that does not hold points to the one that does', async (t) => {
  const sheet = await open(t, 'en/relations/gas.html');
  const calc = block(sheet, 'gas_area');
  const given = { mass: '53500 lb/h', temperature: '167 degF', molar_mass: '51', k: '1.11', relieving: '97.2 psia', back: '77.2 psia' };
  for (const [name, text] of Object.entries(given)) await put(calc, name, text);
  const result = calc.locator('output').first();
  const title = words.relations.subcritical_gas_area.title;
  assert.equal(await result.textContent(), fill(words.live.faults.subcritical, { instead: title }));
  assert.equal(await result.getByRole('link', { name: title }).getAttribute('href'), '#subcritical_gas_area');
});

for (const [page, heading] of [['en/relations/gas.html', '.relation > h2'], ['en/tables/limits.html', '.reference-table > h2']]) {
  test(`${page} begins with the ways to all that is on it`, async (t) => {
    const sheet = await open(t, page);
    const ways = sheet.getByRole('navigation', { name: words.pages.contents, exact: true }).getByRole('link');
    const wanted = await sheet.locator(`${heading} > a`).evaluateAll((all) => all.map((one) => [one.hash, one.textContent]));
    assert.deepEqual(await ways.evaluateAll((all) => all.map((one) => [one.hash, one.textContent])), wanted);
  });
}
