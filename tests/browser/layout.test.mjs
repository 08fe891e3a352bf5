// Nothing runs off a narrow screen, and a lesson prints whole.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import test from 'node:test';
import { lessonOf, kinds, plain, source, words } from './support/product.mjs';
import { NARROW, PHONE, awaken, openAll, openNumbered, sideways, still } from './support/sheet.mjs';

for (const page of kinds) {
  test(`${page} does not scroll sideways at 320 px`, async (t) => {
    const sheet = await openNumbered(t, page, { viewport: NARROW });
    assert.deepEqual(await sheet.evaluate(sideways), still);
    await awaken(sheet);
    await openAll(sheet);
    assert.deepEqual(await sheet.evaluate(sideways), still, 'with every problem alive');
  });

  test(`${page} bears text twice as large, and set wider (WCAG 1.4.4, 1.4.12)`, async (t) => {
    /* Only the test's own style needs the policy out of its way. */
    const sheet = await openNumbered(t, page, { viewport: { width: 640, height: 800 }, bypassCSP: true });
    await awaken(sheet);
    await sheet.addStyleTag({
      content: `html { font-size: 200% !important } * { line-height: 1.5 !important; letter-spacing: .12em !important;
        word-spacing: .16em !important } p { margin-block-end: 2em !important }`,
    });
    assert.deepEqual(await sheet.evaluate(sideways), still);
  });
}

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

for (const colorScheme of ['light', 'dark']) {
  test(`what the figures are for can be read on a phone, ${colorScheme}`, async (t) => {
    for (const page of ['en/lessons/accumulation.html', 'en/practice/allowed_over_mawp.html', 'en/relations/pressures.html']) {
      const sheet = await openNumbered(t, page, { viewport: PHONE, colorScheme });
      await awaken(sheet);
      assert.ok(await sheet.locator('.title-block > .training').isVisible(), page);
      const worked = await sheet.locator(':is(.work-head, .practice-head) > .training').all();
      assert.ok(worked.length > 0, page);
      for (const line of worked) assert.ok(await line.isVisible(), page);
    }
  });
}
