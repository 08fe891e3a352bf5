// What a learner can type, and what an address can say: every hostile string in every answer and every calculator, marked
// and worked; in the query and the fragment of pages. Nothing runs, pages keep their shape, what is refused is told in words,
// and earlier work stands.
import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import test from 'node:test';
import { words } from './support/product.mjs';
import { addressOf, folder, problemOf, settle } from './support/forms.mjs';
import { faultsOf, sheetOf, shapes, strange, strings, usualOf } from './support/hostile.mjs';
import { alive } from './support/sheet.mjs';

const everything = Boolean(process.env.SEATWORK_EVERY_PAGE);
const RECIPES = ['rounded', 'chain', 'trace', 'one', 'several', 'order', 'pairs', 'point', 'claim', 'record'];

/** What somebody may well type: between them they get every verdict that hostile strings can get. */
const USUAL = ['', '12', '-3', '1,234', '12 psi', '5 furlongs', '1e400', 'abc', '12 in2', '1234567.89012345 turn'];

/** A word that is missing shows its path. */
const PATH = /^\w+(\.\w+)+$/;

/**
 * In the browser: each text in every field of the problem, whatever sort of field it is, and marked. Gives the names of all
 * elements and attributes that were there at any time, and what was wrong.
 */
const answer = ({ texts, path }) => {
  const block = document.querySelector('.practice[data-recipe]');
  const [names, faults, said] = [new Set(), [], new Set()];
  const tell = (field, event) => field.dispatchEvent(new Event(event, { bubbles: true }));
  const put = (text) => {
    block.querySelectorAll('input[type="text"]').forEach((input) => {
      input.value = text;
      tell(input, 'input');
    });
    block.querySelectorAll('input[type="radio"], input[type="checkbox"]').forEach((input) => {
      input.value = text;
      input.checked = true;
      tell(input, 'change');
    });
    block.querySelectorAll('select').forEach((menu) => {
      menu.options[menu.options.length - 1].value = text;
      menu.value = text;
      tell(menu, 'change');
    });
    block.querySelectorAll('.order > li').forEach((row) => { row.dataset.item = text; });
    const down = block.querySelector('.order-move[aria-disabled="false"]');
    if (down) down.click();
  };
  texts.forEach((text) => {
    put(text);
    block.querySelector('form').requestSubmit();
    const verdicts = [...block.querySelectorAll('.verdict')];
    const told = verdicts.map((verdict) => [...verdict.querySelectorAll('p')].map((line) => line.textContent.trim()));
    if (told.length === 0 || told.some(([word]) => !word)) faults.push(`${JSON.stringify(text)} is not answered`);
    if (told.flat().some((line) => new RegExp(path).test(line))) faults.push(`${JSON.stringify(text)} gets ${told.flat()}`);
    if (block.querySelector('.verdict-good')) faults.push(`${JSON.stringify(text)} is right`);
    told.forEach(([word]) => said.add(word));
    window.namesWithin(block, names);
  });
  return { names: [...names], faults, said: [...said] };
};

/** One problem that was answered rightly, before anything else; what is then in the record. */
async function goodWork(t, sheet) {
  const { block, part } = await problemOf(t, 'point', 43210, sheet);
  assert.equal(await settle(block, part, 'adjusting_screw'), words.live.verdicts.right.word);
  return (await recordOf(sheet)).point;
}

const recordOf = (sheet) => sheet.evaluate(() => window.SEATWORK.record.read().recipes);

test('whatever is typed into an answer is marked, and nothing else', async (t) => {
  const sheet = await sheetOf(t, folder);
  const good = await goodWork(t, sheet);
  for (const recipe of RECIPES) {
    const { block } = await problemOf(t, recipe, 43212, sheet);
    const usual = await sheet.evaluate(answer, { texts: USUAL, path: PATH.source });
    const found = await sheet.evaluate(answer, { texts: strings, path: PATH.source });
    assert.deepEqual([...usual.faults, ...found.faults], [], recipe);
    assert.deepEqual(found.names.filter((name) => !usual.names.includes(name)), [], recipe);
    if (recipe === 'rounded') assert.ok(found.said.includes(words.live.verdicts.unreadable.word), `${found.said}`);
    /* What was answered last is kept, and brings back no more than a text. */
    await sheet.reload();
    await alive(sheet, recipe);
    assert.deepEqual(await sheet.evaluate(faultsOf), [], recipe);
    for (const input of await block.locator('input[type="text"]').all()) assert.equal(await input.inputValue(), strings.at(-1));
  }
  const { point, ...others } = await recordOf(sheet);
  /* The problem that was right stays so, beside this one, which was not. */
  assert.deepEqual([point.tried, point.clean], [2, good.clean]);
  assert.deepEqual(Object.values(others).filter(({ clean }) => clean > 0), []);
});

/** The calculators of a page: each text in one field, unit or result unit of each of them, by turns. */
const calculate = ({ texts, path, from }) => {
  const [names, faults] = [new Set(), []];
  let refused = 0;
  /* A browser takes only so many changes of an address in a minute. */
  history.replaceState = () => {};
  const blocks = [...document.querySelectorAll('.work[data-relation]')];
  const controls = blocks.map((block) => [...block.querySelectorAll('.work-value, .work-choice, .work-unit, .work-result-unit')]);
  texts.forEach((text, place) => blocks.forEach((block, each) => {
    const control = controls[each][(from + place + each) % controls[each].length];
    const option = control.options && control.options[control.selectedIndex];
    const [shown, value] = [option && option.text, control.value];
    if (option) Object.assign(option, { text, value: text });
    control.value = text;
    control.dispatchEvent(new Event('change'));
    const told = [block.querySelector('output'), ...block.querySelectorAll('.work-fault')].map((line) => line.textContent.trim());
    const fault = `${block.dataset.relation} ${JSON.stringify(text)}`;
    if (told[0] === '') faults.push(`${fault} is not answered`);
    if (told.some((line) => new RegExp(path).test(line))) faults.push(`${fault} gets ${told}`);
    if (block.querySelector('[aria-invalid], .work-none')) refused += 1;
    window.namesWithin(block, names);
    if (option) Object.assign(option, { text: shown, value });
    control.value = value;
  }));
  return { names: [...names], faults, refused, tried: texts.length * blocks.length };
};

const relations = readdirSync(join(folder, 'en', 'relations')).filter((page) => page !== 'index.html')
  .map((page) => `en/relations/${page}`);

test('whatever is typed into a calculator is worked or refused in words', async (t) => {
  const sheet = await sheetOf(t, folder);
  for (const [from, page] of relations.entries()) {
    await sheet.goto(addressOf(page));
    const usual = await sheet.evaluate(calculate, { texts: USUAL.flatMap((text) => Array(9).fill(text)), path: PATH.source, from });
    await sheet.reload();
    const texts = strings.filter((text, place) => everything || place % 3 === from % 3);
    const found = await sheet.evaluate(calculate, { texts, path: PATH.source, from });
    assert.deepEqual(found.faults, [], page);
    assert.deepEqual(found.names.filter((name) => !usual.names.includes(name)), [], page);
    assert.equal(found.refused, found.tried, page);
    assert.deepEqual(await sheet.evaluate(faultsOf), [], page);
  }
});

test('whatever is sought among the terms is found or not, in words', async (t) => {
  const sheet = await sheetOf(t, folder);
  await sheet.goto(addressOf('en/terms/index.html'));
  const sought = (all) => sheet.evaluate((texts) => texts.map((text) => {
    const finder = document.querySelector('[data-find-term]');
    finder.value = text;
    finder.dispatchEvent(new Event('input'));
    return document.querySelector('[data-find-result]').textContent;
  }), all);
  assert.deepEqual(await sought(['zz']), [words.live.terms.none]);
  const usual = usualOf(await sheet.evaluate(shapes, {}));
  const said = await sought(strings.filter((text) => text.trim() !== ''));
  assert.deepEqual([...new Set(said)], [words.live.terms.none]);
  assert.deepEqual(strange((await sheet.evaluate(shapes, {}))[0], usual), []);
});

/** Pages of each kind, how many addresses are tried of each, and the recipe that is practised there. */
const PLACES = [
  ['en/lessons/forms.html', 6, 'point'], ['en/practice/several.html', 6, 'several'], ['en/relations/settings.html', 9],
  ['en/practice/index.html', 6], ['en/practice/progress.html', 4], ['en/terms/index.html', 4], ['en/terms/seat.html', 3],
  ['en/tables/limits.html', 3],
];

/** So many fragments are tried within each. */
const FRAGMENTS = 34;

let cursor = 0;

/** The next string, and after the last the first. */
const next = () => strings[(cursor += 1) % strings.length];

/** A query that a page with a recipe or calculators reads, one that it does not, and one that is none. */
function query(round, recipe, calculators) {
  if (round % 3 === 0) return next();
  const relation = calculators[round % calculators.length];
  if (round % 3 === 1 && relation) {
    const inputs = [...relation.inputs, 'in'].map((name) => [name, next()]);
    return String(new URLSearchParams({ w: relation.id, ...Object.fromEntries(inputs) }));
  }
  return String(new URLSearchParams({ p: round % 3 === 1 && recipe ? recipe : next(), no: next(), units: next(), w: next() }));
}

test('whatever an address says, the page is the page', async (t) => {
  const sheet = await sheetOf(t, folder);
  const good = await goodWork(t, sheet);
  for (const [page, some, recipe] of PLACES) {
    await sheet.goto(addressOf(page));
    if (recipe) await alive(sheet, recipe);
    const shape = async () => (await sheet.evaluate(shapes, {}))[0];
    /* A calculator that has refused something is as usual as one that has not. */
    await sheet.evaluate(() => document.querySelectorAll('.work-value').forEach((field) => {
      field.value = 'abc';
      field.dispatchEvent(new Event('change'));
    }));
    /* So is a page that has said in its notice that a number is none. */
    const quiet = await shape();
    await sheet.evaluate(() => window.SEATWORK.notice?.(''));
    const usual = usualOf([quiet, await shape()]);
    const calculators = await sheet.evaluate(() => [...document.querySelectorAll('.work[data-relation]')].map((block) => ({
      id: block.dataset.relation,
      inputs: [...block.querySelectorAll('.work-input')].map((row) => row.dataset.input),
    })));
    for (let round = 0; round < (everything ? strings.length : some); round += 1) {
      const address = new URL(addressOf(page));
      address.search = query(round, recipe, calculators);
      address.hash = next();
      await sheet.goto(address.href);
      if (recipe) assert.match(await (await alive(sheet, recipe)).locator('.practice-number').textContent(), /\b[1-9]\d{4}\b/);
      const faults = [...strange(await shape(), usual), ...await sheet.evaluate(faultsOf)];
      assert.deepEqual(faults, [], address.href);
      /* What is not in a list is not chosen, and what cannot be read is told. */
      const menus = sheet.locator('.work select');
      assert.deepEqual((await menus.evaluateAll((all) => all.map((menu) => menu.value))).filter((value) => value === ''), []);
      const worked = calculators.find(({ id }) => id === new URLSearchParams(address.search).get('w'));
      const output = () => sheet.locator(`.work[data-relation="${worked.id}"] output`).first().textContent();
      if (worked) assert.equal(await output(), words.live.work.look);
    }
    const fragments = Array.from({ length: FRAGMENTS }, next);
    await sheet.evaluate((all) => all.forEach((each) => { location.hash = each; }), fragments);
    assert.deepEqual([...strange(await shape(), usual), ...await sheet.evaluate(faultsOf)], [], page);
  }
  await sheet.goto(addressOf('en/practice/progress.html'));
  assert.deepEqual((await recordOf(sheet)).point, good);
});
