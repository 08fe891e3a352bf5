// The product as the tests meet it: the command, the published site, and the words and recipes they are compared with.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, existsSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parse } from 'yaml';

export const top = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
/** The command, as it was built. */
export const command = process.env.SEATWORK_BIN || join(top, 'target', 'debug', 'seatwork');

/** Runs the command from the top of the workspace and gives what it prints. */
const seatwork = (...words) => runIn(top, ...words);

/** Runs the command from a folder and gives what it prints. */
export function runIn(folder, ...words) {
  if (!existsSync(command)) throw new Error(`${command} is not there: cargo build -p seatwork`);
  const env = { ...process.env, NO_COLOR: '1' };
  return execFileSync(command, words, { cwd: folder, env, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
}

/** What the command prints for the same words, asked of it once. */
const once = new Map();
const seatworkOnce = (...words) => {
  const key = JSON.stringify(words);
  if (!once.has(key)) once.set(key, seatwork(...words));
  return once.get(key);
};

/** The problem of a seed, natively, with its answers; of the course of the workspace or of another one. */
export const draw = (recipe, seed, units = 'us', course = 'content') => JSON.parse(seatworkOnce(
  'draw', recipe, '--course', course, '--seed', String(seed), '--units', units, '--json', '--answers'));

/** A relation worked natively: its value in a unit. */
export function work(relation, inputs, unit, units = 'us') {
  const given = Object.entries(inputs).map(([name, value]) => `${name}=${value}`);
  return JSON.parse(seatworkOnce('work', relation, ...given, '--in', unit, '--units', units, '--json'));
}

/** The published site: the folder that SEATWORK_SITE names, or one published for this process and removed at its end. */
export const site = process.env.SEATWORK_SITE || published('content');

/** Publishes a course for this process; the folder is removed at its end. */
export function published(course) {
  const scratch = mkdtempSync(join(tmpdir(), 'seatwork-site-'));
  process.on('exit', () => rmSync(scratch, { recursive: true, force: true }));
  seatwork('publish', '--course', course, '--to', join(scratch, 'site'));
  return join(scratch, 'site');
}

export const address = (page) => pathToFileURL(join(site, page)).href;

/** Every page of the site, as its address below the folder. */
export const pages = readdirSync(site, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && entry.name.endsWith('.html'))
  .map((entry) => relative(site, join(entry.parentPath ?? entry.path, entry.name)).split(sep).join('/'))
  .sort();

export const source = (page) => readFileSync(join(site, page), 'utf8');

/** The lesson in which each recipe that lessons have is practised. */
export const lessonOf = new Map(pages.filter((page) => page.startsWith('en/lessons/')).flatMap((page) =>
  [...source(page).matchAll(/data-recipe="(\w+)"/g)].map((found) => [found[1], page])));

/** The recipes that are practised on a page. */
export const recipesOn = (page) => [...source(page).matchAll(/class="practice" data-recipe="(\w+)"/g)].map((found) => found[1]);

/** The stored form of a recipe, which is what the site hands to the engine. */
export const stored = (id) => {
  const [, text] = /\] = (".*");\n$/s.exec(readFileSync(join(site, 'recipes', `${id}.js`), 'utf8'));
  return JSON.parse(text);
};

/** Every recipe of the course, as it is compiled. */
const recipes = readdirSync(join(site, 'recipes')).sort().map((file) => JSON.parse(stored(file.replace(/\.js$/, ''))));

export const recipeNames = recipes.map((recipe) => recipe.id);
export const pageOf = (recipe) => `en/practice/${recipe}.html`;

/** The first recipe that asks in each form. */
const firstOfForms = new Set(new Map(recipes.toReversed().flatMap((recipe) => recipe.asks.map(({ form }) => {
  const [[name, inside]] = Object.entries(form);
  return [inside.plot ? 'read_off' : name, recipe.id];
}))).values());

/** Whether all pages are looked at, and not one or a few of each kind. */
export const everything = Boolean(process.env.SEATWORK_EVERY_PAGE);

/** Of the recipes, one for each form of question and every fourth; that all draw and mark alike is proven by parity. */
export const someRecipes = recipeNames.filter((id, place) => everything || firstOfForms.has(id) || place % 4 === 0);

/** Of the pages of which there are many, those that show between them all that such a page can have. */
const toLookAt = [
  'lessons/parts', 'lessons/opening_and_lift', 'lessons/accumulation', 'relations/pressures', 'relations/gas',
  'terms/index', 'terms/set_pressure', 'tables/limits', 'tables/units', 'coverage/index', 'coverage/terms',
];

/**
 * All pages, but of the many of recipes one for each form of question, and of the lessons a few: one template makes
 * them. With SEATWORK_EVERY_PAGE set, every page there is; that takes an hour.
 */
export const kinds = everything ? pages : pages.filter((page) => {
  const recipe = recipeNames.find((id) => page === pageOf(id));
  const [, one] = /\/((?:lessons|relations|terms|tables|coverage)\/\w+)\.html$/.exec(page) || [];
  return (!recipe || firstOfForms.has(recipe)) && (!one || toLookAt.includes(one));
});

export const words = parse(readFileSync(join(top, 'theme', 'words', 'en.yaml'), 'utf8'));

/** A sentence of the theme with its holes filled; a hole without a value is a fault of the test. */
export const fill = (text, values = {}) => text.replace(/\{(\w+)\}/g, (hole, name) => {
  if (!(name in values)) throw new Error(`no value for ${hole} in: ${text}`);
  return values[name];
});

/** What the author wrote about a mistake, as text, with the drawn values put in. */
export function mistake(recipe, name, drawn) {
  const text = readFileSync(join(top, 'content', 'en', 'recipes', `${recipe}.md`), 'utf8');
  const section = text.split(`## Mistake: ${name}\n`)[1].split('\n## ')[0];
  const values = Object.fromEntries(drawn.givens.map((given) => [given.name, given.text]));
  return plain(fill(section.replaceAll('*', ''), values));
}

/** Text with its white space made even, for comparing. */
export const plain = (text) => text.replace(/\s+/g, ' ').trim();

/** Markup of the command as a browser writes it back. */
export const markup = (html) =>
  html.trim().replaceAll('\u00a0', '&nbsp;').replaceAll('&#39;', "'").replaceAll('&quot;', '"');

/** The value of a given by its name. */
export const given = (drawn, name) => drawn.givens.find((each) => each.name === name);

/** The number of an answer, to the last bit, and the unit that it is asked in. */
export function answer(drawn, part) {
  const { exact, shown } = drawn.answers.find((each) => each.id === part);
  const { unit } = drawn.parts.find((each) => each.id === part);
  return { value: parseFloat(exact), unit, shown };
}
