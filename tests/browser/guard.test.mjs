// The watch that the other tests rely on: it must see a fault where there is one.
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import test from 'node:test';
import { pathToFileURL } from 'node:url';
import { violations } from './support/axe.mjs';
import { guard, offline } from './support/sheet.mjs';

async function badPage(t, html, look) {
  const folder = mkdtempSync(join(tmpdir(), 'seatwork-guard-'));
  t.after(() => rmSync(folder, { recursive: true }));
  writeFileSync(join(folder, 'page.html'), html);
  const context = await offline(t);
  const page = await context.newPage();
  page.removeAllListeners();
  const faults = guard(page, folder);
  await page.goto(pathToFileURL(join(folder, 'page.html')).href, { waitUntil: 'load' });
  return look(page, faults);
}

test('a request to another host is seen', (t) => badPage(t, '<img src="https://elsewhere.invalid/a.png">', (page, faults) => {
  assert.ok(faults.includes('asked for: https://elsewhere.invalid/a.png'), faults.join());
}));

test('a file beside the folder is seen', (t) => badPage(t, '<img src="../other.png">', (page, faults) => {
  assert.ok(faults.some((fault) => fault.startsWith('asked for: file:') && fault.endsWith('/other.png')), faults.join());
}));

test('a warning and an error of a script are seen', (t) =>
  badPage(t, '<script>console.warn("mind"); throw new Error("broken")</script>', (page, faults) => {
    assert.deepEqual(faults.filter((fault) => !fault.includes('favicon')), ['console warning: mind', 'page error: broken']);
  }));

test('a page that some people cannot use is seen', (t) =>
  badPage(t, '<title>x</title><img src="data:,"><input><p style="color:#ccc;background:#fff">pale', async (page) => {
    const found = (await violations(page)).map((each) => each.id);
    for (const rule of ['html-has-lang', 'image-alt', 'label', 'color-contrast']) assert.ok(found.includes(rule), rule);
  }));
