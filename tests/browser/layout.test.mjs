// A lesson prints whole, and what its figures are for stands by them, on paper and on a phone.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import test from 'node:test';
import { lessonOf, plain, source, words } from './support/product.mjs';
import { PHONE, awaken, openNumbered } from './support/sheet.mjs';

/** A page as it prints: its text, and how many sheets of paper. */
async function printed(t, page, options) {
  const folder = mkdtempSync(join(tmpdir(), 'seatwork-print-'));
  t.after(() => rmSync(folder, { recursive: true }));
  const file = join(folder, 'page.pdf');
  const sheet = await openNumbered(t, page, options);
  await awaken(sheet);
  await sheet.pdf({ path: file, preferCSSPageSize: true, printBackground: true, tagged: true, outline: true });
  const read = (command, ...words) => execFileSync(command, words, { encoding: 'utf8' });
  const info = read('pdfinfo', file);
  return {
    text: plain(read('pdftotext', '-layout', file, '-')),
    sheets: Number(/^Pages:\s+(\d+)/m.exec(info)[1]),
    size: /^Page size:\s+(.*)$/m.exec(info)[1],
    sheet,
  };
}

for (const page of new Set(lessonOf.values())) {
  test(`${page} prints on A4 with its signal panels, its numbers and its running head`, async (t) => {
    const { text, sheets, size, sheet } = await printed(t, page, { colorScheme: 'dark' });
    assert.ok(sheets > 1, `${sheets} sheets`);
    assert.match(size, /A4/);
    const html = source(page);
    const signals = [...html.matchAll(/class="signal-word">([A-Z]+)</g)].map((found) => found[1]);
    assert.ok(signals.length > 0);
    for (const signal of signals) assert.ok(text.includes(signal), signal);
    const squeezed = text.replaceAll(' ', '');
    const said = (sentence) => squeezed.split(sentence.replace(/\s/g, '')).length - 1;
    assert.equal(said(words.pages.training_figures), 1, 'what the figures are for, in the title block');
    assert.equal(said(words.pages.worked), html.split('class="work-head"').length - 1, 'and at each calculator');
    assert.match(text, new RegExp(`\\b1 ?/ ?${sheets}\\b`));
    for (const label of [words.live.practice.fresh, words.live.practice.working, words.pages.clear]) {
      assert.ok(!text.includes(label), `a button is printed: ${label}`);
    }
    await sheet.emulateMedia({ media: 'print' });
    const ground = await sheet.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
    assert.equal(ground, 'rgb(255, 255, 255)');
    assert.equal(await sheet.locator('button:visible').count(), 0);
  });
}

for (const page of ['en/lessons/accumulation.html', 'en/practice/allowed_over_mawp.html', 'en/relations/pressures.html']) {
  test(`what the figures of ${page} are for can be read on a phone, light and dark`, async (t) => {
    const sheet = await openNumbered(t, page, { viewport: PHONE });
    await awaken(sheet);
    for (const colorScheme of ['light', 'dark']) {
      await sheet.emulateMedia({ colorScheme });
      assert.ok(await sheet.locator('.title-block > .training').isVisible(), colorScheme);
      const worked = await sheet.locator(':is(.work-head, .practice-head) > .training').all();
      assert.ok(worked.length > 0, colorScheme);
      for (const line of worked) assert.ok(await line.isVisible(), colorScheme);
    }
  });
}
