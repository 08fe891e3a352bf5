// The preview in a browser: what an author sees who changes files and never touches the page.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import test from 'node:test';
import { command, fill, top, words } from './support/product.mjs';
import { violations } from './support/axe.mjs';
import { PHONE, WIDE, served } from './support/sheet.mjs';

const say = words.watch;

/** A copy of the course, watched by the command, and a browser for it; both are ended with the test, the browser first. */
async function watched(t, { from = 'content', before = () => undefined, ...options } = {}) {
  const scratch = mkdtempSync(join(tmpdir(), 'seatwork-watch-'));
  const course = join(scratch, 'course');
  cpSync(join(top, from), course, { recursive: true });
  const path = (name) => join(course, 'en', `${name}.md`);
  const read = (name) => readFileSync(path(name), 'utf8');
  /* As most editors save: another file, renamed. */
  const save = (name, text) => {
    writeFileSync(join(scratch, 'beside'), text);
    renameSync(join(scratch, 'beside'), path(name));
  };
  before({ read, save });
  const running = spawn(command, ['watch', '--course', course, '--port', '0'], { env: { ...process.env, NO_COLOR: '1' } });
  const heard = { out: '', err: '' };
  running.stdout.on('data', (text) => { heard.out += text; });
  running.stderr.on('data', (text) => { heard.err += text; });
  const end = () => {
    running.kill('SIGKILL');
    rmSync(scratch, { recursive: true, force: true });
  };
  process.on('exit', end);
  const address = await until(() => /http:\/\/[\d.:]+\//.exec(heard.out)?.[0]);
  const context = await served(t, address, options);
  t.after(end);
  return { address, context, course, read, save, running, heard };
}

/** Waits until something is there. */
async function until(look) {
  for (;;) {
    const found = await look();
    if (found) return found;
    await new Promise((go) => { setTimeout(go, 25); });
  }
}

/** The page within the frame. */
const inner = (window) => window.frameLocator('#page');
const status = (window) => window.locator('#status');

test('a saved change is shown where the page stands', async (t) => {
  const { address, context, read, save } = await watched(t);
  const window = await context.newPage();
  await window.goto(`${address}#/site/en/lessons/parts.html`);
  await inner(window).locator('h1').waitFor();
  await inner(window).locator('article h2').last().evaluate((heading) => heading.scrollIntoView({ behavior: 'instant' }));
  const height = () => window.evaluate(() => document.getElementById('page').contentWindow.scrollY);
  const stood = await height();
  assert.ok(stood > 200);
  const text = read('lessons/parts');
  save('lessons/parts', `${text}\nThe gag comes off before the valve goes back.\n`);
  const line = inner(window).getByText('The gag comes off before the valve goes back.');
  await line.waitFor();
  assert.ok(Math.abs(await height() - stood) < 3, `${await height()} where it was ${stood}`);
  assert.equal(new URL(window.url()).hash, '#/site/en/lessons/parts.html');
  save('lessons/parts', text);
  await line.waitFor({ state: 'detached' });
  assert.ok(Math.abs(await height() - stood) < 3);
});

test('a broken formula is told with its line, in the frame and in the terminal, and is gone when it is mended', async (t) => {
  const { address, context, course, read, save, heard } = await watched(t);
  const window = await context.newPage();
  await window.goto(`${address}#/site/en/lessons/parts.html`);
  const title = await inner(window).locator('h1').textContent();
  await status(window).getByText(say.sound).waitFor();
  const recipe = read('recipes/seat_force');
  const broken = recipe.replace(/answer: "/, 'answer: "1 in + ');
  assert.notEqual(broken, recipe);
  const line = broken.slice(0, broken.indexOf('1 in + ')).split('\n').length;
  save('recipes/seat_force', broken);
  const wrong = window.locator('#wrong');
  await wrong.getByText(`${course}/en/recipes/seat_force.md:${line}:`).waitFor();
  await wrong.getByText(say.still).waitFor();
  assert.equal(await inner(window).locator('h1').textContent(), title, 'the last good site stays');
  const told = await wrong.locator('li h3').first().textContent();
  await until(() => heard.err.includes(told) && heard.err.includes(`seat_force.md:${line}:`));
  assert.deepEqual(await violations(window), []);
  save('recipes/seat_force', recipe);
  await status(window).getByText(say.sound).waitFor();
  assert.equal((await wrong.textContent()).trim(), '');
});

test('a course that is broken from the start appears once it is mended', async (t) => {
  let good;
  const before = (files) => {
    good = files.read('lessons/parts');
    files.save('lessons/parts', good.replace('format: 1', 'format: 9'));
  };
  /* The page that is not there yet is answered as such. */
  const { address, context, save } = await watched(t, { before, but: /503/ });
  const window = await context.newPage();
  await window.goto(address);
  await inner(window).getByText(say.no_site).waitFor();
  await status(window).getByText(say.one_fault).waitFor();
  save('lessons/parts', good);
  await inner(window).locator('.cover h1').waitFor();
  await status(window).getByText(say.sound).waitFor();
});

test('many windows hear of a change, and of the end', async (t) => {
  const { address, context, read, save, running, heard } = await watched(t, { but: /ERR_/ });
  const windows = [];
  for (let count = 0; count < 8; count += 1) {
    const window = await context.newPage();
    await window.goto(`${address}#/site/en/lessons/parts.html`);
    await inner(window).locator('h1').waitFor();
    windows.push(window);
  }
  save('lessons/parts', `${read('lessons/parts')}\nOne line for all.\n`);
  for (const window of windows) await inner(window).getByText('One line for all.').waitFor();
  /* The one that listens for the others is closed; another takes over. */
  await windows.shift().close();
  save('lessons/parts', `${read('lessons/parts')}\nAnd another.\n`);
  for (const window of windows) await inner(window).getByText('And another.').waitFor();
  running.kill('SIGINT');
  assert.deepEqual(await once(running, 'exit'), [0, null]);
  assert.ok(heard.out.endsWith(`${say.told.ended}\n`));
  for (const window of windows) await window.getByText(say.stopped).waitFor();
});

test('the list leads by keys to lessons, recipes and samples', async (t) => {
  const { address, context } = await watched(t);
  const window = await context.newPage();
  await window.goto(address);
  await inner(window).locator('h1').waitFor();
  const list = window.locator('#list');
  const lesson = list.locator('a[href$="/lessons/parts.html"]');
  const tabTo = async (link) => {
    for (let count = 0; count < 400 && !(await link.evaluate((one) => one === document.activeElement)); count += 1) {
      await window.keyboard.press('Tab');
    }
  };
  await tabTo(lesson);
  await window.keyboard.press('Enter');
  await inner(window).locator('html[data-kind="lesson"]').waitFor();
  await window.waitForURL(/#\/site\/en\/lessons\/parts\.html$/);
  await tabTo(list.locator('#about-parts summary'));
  await window.keyboard.press('Enter');
  await list.locator('#about-parts').getByText(say.uses).waitFor();
  const units = words.live.units.si;
  await list.locator('a[href="/samples/si/seat_force.html"]').getByText(fill(say.samples, { units })).click();
  await inner(window).locator('.samples-for').waitFor();
});

for (const colorScheme of ['light', 'dark']) {
  for (const viewport of [WIDE, PHONE]) {
    test(`the frame in ${colorScheme}, ${viewport.width} px wide`, async (t) => {
      const { address, context } = await watched(t, { from: 'tests/browser/course', viewport, colorScheme });
      const window = await context.newPage();
      await window.goto(address);
      await inner(window).locator('h1').waitFor();
      const look = async () => {
        assert.deepEqual(await violations(window), []);
        assert.ok(await window.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'sideways');
        const box = await window.locator('#page').boundingBox();
        assert.ok(box.height > 200, `${box.height} px are left for the page`);
      };
      await look();
      const summary = window.locator('.watch-list > summary');
      if (viewport === PHONE) await summary.click();
      await window.locator('#about-forms > summary').click();
      await look();
    });
  }
}

/** The page of areas with the picture of the course open on it. */
async function areasOf(t, options = {}) {
  const watching = await watched(t, { from: 'tests/browser/course', ...options });
  const window = await watching.context.newPage();
  await window.goto(`${watching.address}watch/areas`);
  const text = () => window.locator('#text').inputValue();
  return { ...watching, window, text };
}

test('areas are drawn by a drag, by clicks and by corners, and moved; the lines can be pasted', async (t) => {
  const { window, text, save, course, address } = await areasOf(t);
  await window.locator('#file').setInputFiles(join(course, 'en', 'images', 'board.png'));
  await window.waitForFunction(() => document.getElementById('picture').naturalWidth === 640);
  for (const [key, words] of [['title', 'My board'], ['description', 'A board with "lamps".'], ['source', 'Own photo']]) {
    await window.locator(`[data-head="${key}"]`).fill(words);
  }
  await window.locator('[data-head="id"]').fill('own_board');
  const stage = window.locator('#over');
  await stage.scrollIntoViewIfNeeded();
  const box = await stage.boundingBox();
  const at = (x, y) => [box.x + box.width * x / 100, box.y + box.height * y / 100];
  await window.mouse.move(...at(5, 5));
  await window.mouse.down();
  await window.mouse.move(...at(25, 35), { steps: 4 });
  await window.mouse.up();
  await window.locator('[value="ellipse"]').check();
  await window.mouse.click(...at(40, 10));
  await window.mouse.click(...at(60, 40));
  await window.locator('[value="polygon"]').check();
  for (const corner of [[70, 60], [90, 60], [80, 90], [70, 60]]) await window.mouse.click(...at(...corner));
  await window.locator('[value="move"]').check();
  await window.mouse.move(...at(15, 20));
  await window.mouse.down();
  await window.mouse.move(...at(15, 50), { steps: 4 });
  await window.mouse.up();
  const drawn = await text();
  assert.match(drawn, /rectangle: \{ left: [45][\d.]*, top: 3[45][\d.]*, width: (19|20)[\d.]*, height: (29|30)[\d.]* \}/);
  assert.match(drawn, /ellipse: \{ left: (39|40)[\d.]*, top: (9|10)[\d.]*, width: (19|20)[\d.]*, height: (29|30)[\d.]* \}/);
  assert.match(drawn, /polygon: \[\[(69|70)[\d.]*, (59|60)[\d.]*\], \[(89|90)[\d.]*, (59|60)[\d.]*\], \[(79|80)[\d.]*, (89|90)[\d.]*\]\]/);
  assert.match(drawn, /image: "..\/images\/board.png"/);
  save('pictures/own_board', drawn);
  const frame = await window.context().newPage();
  await frame.goto(address);
  await status(frame).getByText(say.sound).waitFor();
  await window.reload();
  await window.getByRole('button', { name: 'My board' }).click();
  assert.equal(await text(), drawn);
});

test('areas are added, named, sized and removed by the keyboard alone', async (t) => {
  const { window, text } = await areasOf(t);
  await window.locator('#add').focus();
  await window.keyboard.press('Enter');
  await window.keyboard.press('Control+A');
  await window.keyboard.type('gauge');
  await window.keyboard.press('Tab');
  await window.keyboard.press('Control+A');
  await window.keyboard.type('Gauge');
  for (const number of ['', '', '10', '20', '30', '25.5']) {
    await window.keyboard.press('Tab');
    if (number) await window.keyboard.press('Control+A');
    await window.keyboard.type(number);
  }
  assert.match(await text(), /- id: gauge\n {4}name: "Gauge"\n {4}rectangle: \{ left: 10, top: 20, width: 30, height: 25.5 \}/);
  await window.keyboard.press('Tab');
  await window.keyboard.press('Enter');
  assert.ok(!(await text()).includes('gauge'));
  assert.equal(await window.locator('#said').textContent(), fill(say.areas.removed, { name: 'Gauge' }));
});

for (const viewport of [WIDE, PHONE]) {
  test(`the page of areas hinders nobody, ${viewport.width} px wide`, async (t) => {
    const { window } = await areasOf(t, { viewport });
    await window.locator('.areas-open').first().click();
    assert.equal(await window.locator('.areas-area').count(), 40);
    assert.deepEqual(await violations(window), []);
    assert.ok(await window.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'sideways');
  });
}
