// What a sheet remembers, what its links bring back, and what its switches change.
import assert from 'node:assert/strict';
import test from 'node:test';
import { address, draw, lessonOf, markup, plain, words } from './support/product.mjs';
import { alive, check, offline, practise, problem, verdict } from './support/sheet.mjs';

const SEED = 48213;
const FORCE = 'Force on the disc';
const live = words.live;
const units = (block, system) => block.page().getByRole('button', { name: words.pages.units[system], exact: true }).click();
const statement = async (block) => (await block.locator('.practice-statement').innerHTML()).trim();
const number = async (block) => /(\d{2,})/.exec(await block.locator('.practice-number').textContent())[1];

test('the number of a problem is a link that brings back exactly this problem', async (t) => {
  const { sheet, block } = await practise(t, 'seat_force', SEED);
  await block.getByRole('button', { name: live.practice.fresh }).click();
  const drawn = await number(block);
  assert.equal(new URL(sheet.url()).search, '', 'the old address would bring the old numbers back');
  await block.locator('.practice-number a').click();
  assert.equal(sheet.url(), problem('seat_force', drawn));
  const notices = [live.practice.link_copied, live.practice.link_shown];
  const notice = sheet.locator('.notice');
  await notice.waitFor();
  assert.ok(notices.includes(await notice.textContent()));
  assert.equal(await notice.getAttribute('role'), 'status');
  const other = await (await offline(t)).newPage();
  await other.goto(sheet.url());
  const brought = await alive(other, 'seat_force');
  assert.equal(await number(brought), drawn);
  assert.equal(await statement(brought), await statement(block));
});

test('a link that makes no sense gives a fresh problem', async (t) => {
  for (const query of ['?p=seat_force&no=0', '?p=seat_force&no=abc&units=xx', '?p=nothing&no=48213', '?no=48213']) {
    const sheet = await (await offline(t)).newPage();
    await sheet.goto(address(lessonOf.get('seat_force')) + query);
    assert.match(await number(await alive(sheet, 'seat_force')), /^[1-9]\d{4}$/, query);
  }
});

test('a number that somebody has set is typed on the sheet of the recipe, by keys alone', async (t) => {
  const { sheet, block } = await practise(t, 'full_open_on_sheet', SEED);
  const field = sheet.getByLabel(words.pages.practising.by_number);
  await field.fill('4711');
  await field.press('Enter');
  await sheet.waitForFunction(() => location.search.includes('no=4711'));
  assert.equal(await number(await alive(sheet, 'full_open_on_sheet')), '4711');
  const drawn = draw('full_open_on_sheet', 4711);
  const shown = (await block.locator('.practice-statement .given').allTextContents()).map(plain);
  const texts = drawn.givens.map(({ text }) => plain(text));
  assert.ok(shown.length > 0 && shown.every((each) => texts.includes(each)), shown.join());
  await field.fill('12 3');
  await field.press('Enter');
  assert.equal(await sheet.locator('.notice').textContent(), plain(live.kept.no_such_number));
  assert.equal(await number(block), '4711');
});

test('a link to a heading leads there, though the problems before it come alive on the way', async (t) => {
  const heading = 'is-it-within-the-tolerance';
  const sheet = await (await offline(t)).newPage();
  const inSight = () => sheet.waitForFunction((id) => {
    const { top } = document.getElementById(id).getBoundingClientRect();
    return top >= 0 && top < 60 && !document.querySelector('.practice:has(.practice-sample) ~ #' + id);
  }, heading);
  await sheet.goto(`${address('en/lessons/bench_test.html')}#${heading}`);
  await inSight();
  await sheet.goto(address('en/lessons/bench_test.html'));
  await sheet.evaluate((id) => { location.hash = id; }, heading);
  await inSight();
});

test('fresh numbers change the problem, empty the answer and lead to the new statement', async (t) => {
  const { sheet, block } = await practise(t, 'seat_force', SEED);
  await check(block, FORCE, '100');
  const before = await statement(block);
  await block.getByRole('button', { name: live.practice.fresh }).click();
  const drawn = draw('seat_force', await number(block));
  assert.equal(await statement(block), markup(drawn.statement_html));
  assert.notEqual(await statement(block), before);
  assert.equal(await block.getByLabel(FORCE, { exact: true }).inputValue(), '');
  assert.equal(await block.locator('.verdict').count(), 0);
  assert.ok(await sheet.evaluate(() => document.activeElement.matches('.practice-statement')));
});

test('what was typed and chosen is there again after a reload', async (t) => {
  const { sheet, block } = await practise(t, 'overpressure_and_mawp', SEED);
  const label = 'Overpressure, % of set pressure';
  await block.getByLabel(label, { exact: true }).fill('12.5 %');
  await block.getByRole('radio').nth(1).check();
  await sheet.goto(address(lessonOf.get('overpressure_and_mawp')));
  const again = await alive(sheet, 'overpressure_and_mawp');
  assert.equal(await number(again), String(SEED));
  assert.equal(await again.getByLabel(label, { exact: true }).inputValue(), '12.5 %');
  assert.ok(await again.getByRole('radio').nth(1).isChecked());
});

test('a problem that was only read is there again after a reload', async (t) => {
  const sheet = await (await offline(t)).newPage();
  await sheet.goto(address(lessonOf.get('seat_force')));
  const before = await number(await alive(sheet, 'seat_force'));
  await sheet.reload();
  assert.equal(await number(await alive(sheet, 'seat_force')), before);
});

test('the switch of units draws the same number in the other system, and keeps the answers of each', async (t) => {
  const { sheet, block } = await practise(t, 'seat_force', SEED);
  const typed = () => block.getByLabel(FORCE, { exact: true });
  await typed().fill('250');
  await units(block, 'si');
  const { statement_html: html } = draw('seat_force', SEED, 'si');
  assert.equal(await statement(block), markup(html));
  assert.equal(await typed().inputValue(), '');
  await typed().fill('1100');
  await units(block, 'us');
  assert.equal(await typed().inputValue(), '250');
  await units(block, 'si');
  assert.equal(await typed().inputValue(), '1100');
  const switches = sheet.getByRole('group', { name: words.pages.units.label, exact: true }).getByRole('button');
  const pressed = () => switches.evaluateAll((all) => all.map((one) => one.getAttribute('aria-pressed')));
  assert.deepEqual(await pressed(), ['false', 'true']);
  await sheet.goto(address('index.html'));
  assert.deepEqual(await pressed(), ['false', 'true']);
});

test('the look is kept from page to page and over a reload, and starts as the device has it', async (t) => {
  const context = await offline(t, { colorScheme: 'dark' });
  const sheet = await context.newPage();
  await sheet.goto(address('index.html'));
  const ground = () => sheet.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  const press = (name) => sheet.getByRole('button', { name: words.pages.look[name], exact: true });
  const dark = await ground();
  assert.equal(await press('blueprint').getAttribute('aria-pressed'), 'true');
  await press('paper').click();
  const light = await ground();
  assert.notEqual(light, dark);
  await sheet.reload();
  assert.equal(await ground(), light);
  await sheet.goto(address('en/terms/index.html'));
  assert.equal(await ground(), light);
  assert.equal(await press('paper').getAttribute('aria-pressed'), 'true');
  await press('blueprint').click();
  assert.equal(await ground(), dark);
});

test('another open page of the course takes part in a switch', async (t) => {
  const context = await offline(t);
  const one = await context.newPage();
  const two = await context.newPage();
  await one.goto(problem('seat_force', SEED));
  await alive(one, 'seat_force');
  await two.goto(address('index.html'));
  await two.getByRole('button', { name: words.pages.units.si, exact: true }).click();
  await one.waitForFunction(() => document.documentElement.dataset.units === 'si');
  assert.match(await one.locator('.practice[data-recipe="seat_force"] .practice-statement').textContent(), /barg/);
});

test('clear my work asks first, then takes away what this course keeps and nothing else', async (t) => {
  const { sheet, block } = await practise(t, 'seat_force', SEED);
  await check(block, FORCE, '250');
  await units(block, 'si');
  await sheet.evaluate(() => localStorage.setItem('another course', 'stays'));
  const kept = () => sheet.evaluate(() => Object.keys(localStorage).sort());
  const before = await kept();
  assert.ok(before.length >= 3, before.join());
  const dialog = sheet.getByRole('dialog', { name: live.clear.title });
  const clear = sheet.getByRole('button', { name: words.pages.clear, exact: true });
  await clear.click();
  await dialog.getByRole('button', { name: live.clear.keep, exact: true }).click();
  assert.deepEqual(await kept(), before);
  await clear.click();
  await sheet.keyboard.press('Escape');
  assert.deepEqual(await kept(), before);
  await clear.click();
  await dialog.getByRole('button', { name: live.clear.confirm, exact: true }).click();
  assert.deepEqual(await kept(), ['another course']);
  assert.equal(await sheet.locator('.notice').textContent(), live.clear.done);
  assert.equal(await block.getByLabel(FORCE, { exact: true }).inputValue(), '');
  assert.notEqual(await number(block), String(SEED));
});

test('a broken note of earlier work is not in the way', async (t) => {
  const context = await offline(t);
  const sheet = await context.newPage();
  await sheet.goto(address(lessonOf.get('seat_force')));
  await sheet.evaluate(() => {
    const { prefix } = window.SEATWORK;
    localStorage.setItem(`${prefix}practice/seat_force`, '{"no": 5');
    localStorage.setItem(`${prefix}units`, 'furlongs');
    localStorage.setItem(`${prefix}look`, 'wallpaper');
  });
  await sheet.reload();
  const block = await alive(sheet, 'seat_force');
  const drawn = draw('seat_force', await number(block));
  assert.equal((await check(block, FORCE, drawn.answers[0].shown)).word, live.verdicts.right.word);
  assert.equal((await verdict(block, FORCE)).role, 'status');
});
