// Files to hand out, sound and film, from the file system with the network off: captions become cues, and what is said can be
// read without them.
import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import test from 'node:test';
import { pathToFileURL } from 'node:url';
import { violations } from './support/axe.mjs';
import { published, top } from './support/product.mjs';
import { PHONE, WIDE, offline } from './support/sheet.mjs';

const folder = published('tests/browser/stick');
const page = pathToFileURL(join(folder, 'en/lessons/files.html')).href;
const policy = (html) => /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(html)[1];

async function opened(t, options = {}) {
  const sheet = await (await offline(t, options, folder)).newPage();
  await sheet.goto(page);
  return sheet;
}

test('a link to a file says its kind and size, and leads to a copy of it', async (t) => {
  const sheet = await opened(t);
  const link = sheet.getByRole('link', { name: 'the data sheet' });
  assert.equal(await link.getAttribute('href'), '../../en/files/data_sheet.pdf');
  assert.match(await link.evaluate((each) => each.nextElementSibling.textContent), /^\(PDF, 1 kB\)$/);
  for (const name of ['data_sheet.pdf', 'lift.mp4', 'pop.webm', 'hiss.wav']) {
    const [kept, copied] = [join(top, 'tests/browser/stick'), folder].map((root) => readFileSync(join(root, 'en/files', name)));
    assert.ok(kept.equals(copied), name);
  }
  assert.ok(!existsSync(join(folder, 'en/files/pop.vtt')), 'captions are in the page');
});

test('captions become cues, in order and as plain text', async (t) => {
  const sheet = await opened(t);
  const tracks = await sheet.evaluate(() => [...document.querySelectorAll('video, audio')].map((player) => {
    const [track] = player.textTracks;
    return {
      mode: track.mode, kind: track.kind, language: track.language,
      cues: [...track.cues].map((cue) => [cue.startTime, cue.endTime, cue.getCueAsHTML().textContent]),
    };
  }));
  assert.deepEqual(tracks, [
    {
      mode: 'showing', kind: 'captions', language: 'en',
      cues: [[0, 1.2, 'The pressure rises & the disc simmers.'], [1.2, 2.8, 'The valve pops open: 5 < 6.']],
    },
    { mode: 'hidden', kind: 'captions', language: 'en', cues: [[0, 0.9, 'A steady hiss: the seat leaks.']] },
  ]);
});

test('nothing plays by itself; a film plays from the stick, and what is said just now is marked', async (t) => {
  const sheet = await opened(t);
  const film = sheet.locator('video');
  assert.deepEqual(await sheet.locator('video, audio').evaluateAll((players) => players.map(
    ({ paused, autoplay, controls, preload }) => ({ paused, autoplay, controls, preload }))),
  Array(2).fill({ paused: true, autoplay: false, controls: true, preload: 'metadata' }));
  await film.evaluate((player) => { player.muted = true; return player.play(); });
  await sheet.locator('.transcript li.is-said').first().waitFor();
  await film.evaluate((player) => { player.pause(); player.currentTime = 2; });
  await sheet.waitForFunction(() => document.querySelector('.is-said .said')?.textContent.startsWith('The valve pops'));
});

for (const [name, options] of Object.entries({ wide: { viewport: WIDE }, dark: { colorScheme: 'dark' }, phone: { viewport: PHONE } })) {
  test(`the judge finds nothing, and nothing is wider than the sheet: ${name}`, async (t) => {
    const sheet = await opened(t, options);
    assert.deepEqual(await violations(sheet), []);
    assert.ok(await sheet.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
  });
}

test('what is said is read without scripts, and in print', async (t) => {
  const sheet = await opened(t, { javaScriptEnabled: false });
  await sheet.emulateMedia({ media: 'print' });
  assert.ok(await sheet.getByText('The valve pops open: 5 < 6.').isVisible());
  assert.ok(!await sheet.locator('video').isVisible());
});

test('the policy lets sound and film of the site play, and is otherwise as before', () => {
  assert.equal(policy(readFileSync(join(folder, 'en/lessons/files.html'), 'utf8')),
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; media-src 'self'; "
    + "font-src 'self' data:; worker-src blob:; connect-src 'none'; base-uri 'none'; form-action 'none'");
});
