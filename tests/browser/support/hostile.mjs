// Hostile strings, and the watch over a sheet that they are put into: nothing runs, and the page keeps its shape.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { top } from './product.mjs';
import { offline } from './sheet.mjs';

const groups = JSON.parse(readFileSync(join(top, 'tests', 'hostile', 'strings.json'), 'utf8'));
const textsOf = (group) => group.map(({ text, times = 1 }) => text.repeat(times));

/** Every string of `tests/hostile/strings.json`, and those that become something wider than a screen. */
export const strings = Object.values(groups).flatMap(textsOf);
export const wide = textsOf(groups.wide);

/** A sheet on which anything that runs or opens is a fault of the test. */
export async function sheetOf(t, folder, options = {}) {
  const context = await offline(t, options, folder);
  const faults = [];
  await context.exposeFunction('hostile', () => faults.push('a script of the course has run'));
  context.on('dialog', (dialog) => {
    faults.push(`dialog: ${dialog.message()}`);
    dialog.dismiss();
  });
  /* The names of all elements and attributes within an element, added to those that were there before. */
  await context.addInitScript(() => {
    window.namesWithin = (within, names) => within.querySelectorAll('*').forEach((element) => {
      names.add(element.localName);
      [...element.attributes].forEach(({ name }) => names.add(`${element.localName} ${name}`));
    });
  });
  const sheet = await context.newPage();
  sheet.on('framenavigated', (frame) => {
    if (frame !== sheet.mainFrame() || !frame.url().startsWith('file:')) faults.push(`went to ${frame.url()}`);
  });
  t.after(() => assert.deepEqual(faults, []));
  return sheet;
}

/** In the browser: the shape of pages that are parsed and not run, or of the one that is open. */
export const shapes = ({ sources = [null], formula = [] }) => sources.map((source) => {
  const page = source === null ? document : new DOMParser().parseFromString(source, 'text/html');
  const count = (selector) => page.querySelectorAll(selector).length;
  const all = [...page.querySelectorAll('*')];
  const ids = all.map((element) => element.id).filter(Boolean);
  const comments = page.createNodeIterator(page, NodeFilter.SHOW_COMMENT);
  return {
    landmarks: ['html', 'head', 'head > title', 'body', 'header.sheet-head', 'main', 'h1', 'footer.title-block', '.facts dd', '.turn']
      .map((selector) => `${selector} ${count(selector)}`).join(', '),
    outside: [...page.body.children].map((element) => element.className).join(', '),
    scripts: [...page.scripts].map((script) => script.getAttribute('src')),
    repeated: ids.filter((id, place) => ids.indexOf(id) !== place),
    spaced: ids.filter((id) => /\s/.test(id)),
    comment: comments.nextNode()?.data ?? null,
    names: [...new Set(all.flatMap((element) => [element.localName,
      ...[...element.attributes].map(({ name }) => `${element.localName} ${name}`)]))]
      .filter((name) => !formula.includes(name)),
    addresses: [...new Set(all.flatMap((element) => ['href', 'src', 'xlink:href']
      .map((name) => element.getAttribute(name)).filter((address) => address !== null)))],
    text: [page.title, page.body.textContent, ...[...page.querySelectorAll('[data-definition]')].map((term) => term.dataset.definition)]
      .join(' ').replace(/\s+/g, ' '),
  };
});

/** What a page may lead to or load. */
const ADDRESS = /^(#|https:\/\/|mailto:|data:image\/svg\+xml,%3Csvg|[\w./-]+\.(html|js|css|csv|png)(#|$)|(\w+\.html)?\?p=\w+&no=\d{5}&units=(us|si)$)/;

/** What pages without anything hostile have. */
export const usualOf = (all) => Object.fromEntries(['names', 'landmarks', 'outside', 'addresses']
  .map((name) => [name, new Set(all.flatMap((shape) => shape[name]))]));

/** What a page has that those have not. */
export function strange(shape, usual) {
  const faults = [];
  const names = shape.names.filter((name) => !usual.names.has(name));
  const bad = shape.addresses.filter((address) => !ADDRESS.test(address) && !usual.addresses.has(address));
  if (names.length > 0) faults.push(`has ${names}`);
  if (bad.length > 0) faults.push(`leads to ${bad}`);
  if (!usual.landmarks.has(shape.landmarks)) faults.push(shape.landmarks);
  if (!usual.outside.has(shape.outside)) faults.push(`outside the sheet ${shape.outside}`);
  if (shape.repeated.length > 0) faults.push(`has twice ${shape.repeated}`);
  if (shape.spaced.length > 0) faults.push(`has spaced ids ${shape.spaced}`);
  if (shape.comment !== null) faults.push(`has a comment ${shape.comment}`);
  return faults;
}

/** In the browser: faults that a live page shows: no title, more than the sheet, wider than the screen. */
export const faultsOf = () => {
  const main = document.querySelector('main');
  const faults = [];
  if (!window.SEATWORK || !window.SEATWORK.say) faults.push('the scripts are not there');
  if (document.querySelectorAll('main, .title-block').length !== 2) faults.push('landmarks');
  if (document.documentElement.scrollWidth > innerWidth) faults.push(`wide: ${document.documentElement.scrollWidth}`);
  if (main.getBoundingClientRect().height < 50) faults.push('nothing to see');
  const ids = [...document.querySelectorAll('[id]')].map((element) => element.id);
  const twice = ids.filter((id, place) => ids.indexOf(id) !== place);
  if (twice.length > 0) faults.push(`twice: ${twice}`);
  return faults;
};
