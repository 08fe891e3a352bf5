/* The sheet of practice: the learner chooses what, how many and of which level, and gets problems one at a time or as a
   sheet of several. What was begun is there again after a reload. */
(() => {
  'use strict';

  const { get, say, make, button, record, kept, choose, due, Problem } = window.SEATWORK;
  const KEY = 'session';
  const root = document.documentElement;
  const form = document.querySelector('[data-choosing]');
  const place = document.querySelector('[data-session]');
  const skeleton = document.querySelector('[data-block]');

  /* The recipes, as the list on the page has them. */
  const pool = [...document.querySelectorAll('[data-listed]')].map((row) => ({
    id: row.dataset.listed,
    level: Number(row.dataset.level),
    objectives: row.dataset.objectives.split(' '),
    starts: 'start' in row.dataset,
    title: row.querySelector('a').textContent,
    kind: row.querySelector('.recipe-level').textContent,
  }));
  const known = (id) => pool.find((recipe) => recipe.id === id);

  const scope = (what) => {
    if (what === 'all') return pool;
    if (what === 'missed') return due(pool);
    const option = [...form.elements.what.options].find(({ value }) => value === what);
    const wanted = option ? option.dataset.objectives.split(' ') : [];
    return pool.filter(({ objectives }) => objectives.some((id) => wanted.includes(id)));
  };

  const objectiveText = (id) => form.querySelector(`option[value="objective:${id}"]`).textContent;

  /* The block of a recipe, as lessons have it, without its sample. In a sheet of several it has its `place`. */
  const block = (recipe, place) => {
    const made = skeleton.content.firstElementChild.cloneNode(true);
    made.dataset.recipe = recipe.id;
    made.dataset.level = recipe.level;
    if (recipe.starts) made.dataset.start = '';
    const kind = [recipe.kind, place].filter(Boolean).join(' · ');
    made.setAttribute('aria-label', [recipe.title, place].filter(Boolean).join(' · '));
    made.querySelector('[data-block-title]').textContent = recipe.title;
    made.querySelector('[data-block-kind]').textContent = kind;
    made.querySelector('[data-block-aims]').textContent =
      recipe.objectives.map((id) => objectiveText(id).replace(/\.$/, '')).join('; ');
    return made;
  };

  const isItem = (item) => kept.isObject(item) && known(item.recipe) && kept.problem(item.problem);
  const itemOf = ({ recipe, problem, counted }) => ({ recipe, problem: kept.problem(problem), counted: counted === true });

  /* What is sound in a session that was kept; nothing if it is not one, or if none of its problems is sound. */
  const sound = (found) => {
    const whole = kept.isObject(found) && found.format === 1 && typeof found.what === 'string'
      && [1, 5, 10].includes(found.many) && Number.isInteger(found.worked) && Number.isInteger(found.clean)
      && Array.isArray(found.items);
    if (!whole) return null;
    const { what, many, worked, clean } = found;
    const items = found.items.slice(0, many).filter(isItem).map(itemOf);
    return items.length > 0 ? { format: 1, what, many, worked, clean, items } : null;
  };

  let session = null;
  let problems = [];
  let tally = null;
  const line = make('p', { class: 'session-numbers' });

  /* What is printed below the problems, so that their key can be made from the paper. */
  const numbers = () => {
    const each = session.items.map(({ recipe, problem }) => `${recipe} ${problem.no}`);
    line.textContent = say('session.numbers', { numbers: [...each, root.dataset.units].join(' · ') });
  };

  const save = () => {
    kept.keep(KEY, session);
    numbers();
  };
  const begin = (recipe) => ({ recipe: recipe.id, problem: kept.begin(kept.freshNumber()), counted: false });

  const live = (item, index, { length }) => {
    const made = block(known(item.recipe), length > 1 ? say('session.place', { place: index + 1, of: length }) : null);
    const keep = {
      get state() { return item.problem; },
      set state(state) { item.problem = state; },
      save,
      renew: () => {},
      page: `${item.recipe}.html`,
    };
    return new Problem(made, keep);
  };

  /* How it goes so far: counted by the first answers to each problem. */
  const count = () => {
    session.items.filter((item) => item.problem.settled && !item.counted).forEach((item) => {
      item.counted = true;
      session.worked += 1;
      if (item.problem.clean) session.clean += 1;
    });
    save();
    const { worked, clean, many } = session;
    tally.textContent = many === 1 ? say('session.tally', { worked, clean }) : say('session.tally_of', { worked, clean, many });
  };

  const next = () => {
    const [recipe] = choose(scope(session.what), 1, session.items[0].recipe).filter(Boolean);
    if (!recipe) {
      tally.textContent = say('session.none_due');
      return;
    }
    session.items = [begin(recipe)];
    save();
    show();
    problems[0].read();
  };

  const show = () => {
    problems = session.items.map(live);
    tally = make('p', { class: 'session-tally', role: 'status' });
    const more = session.many === 1 ? button(say('session.next'), { class: 'action action-main' }, next) : null;
    place.replaceChildren(...problems.map((problem) => problem.block),
      make('div', { class: 'session-foot' }, more, tally), line);
    problems.forEach((problem) => problem.refresh());
    count();
  };

  const note = form.querySelector('[data-choosing-note]');

  const start = () => {
    const what = form.elements.what.value;
    const many = Number(form.elements.many.value);
    const choice = scope(what);
    if (choice.length === 0) {
      note.textContent = what === 'missed' ? say('session.none_due') : say('session.none');
      return;
    }
    const chosen = choose(choice, many);
    const { level } = record.read();
    note.textContent = level.fixed && chosen[0].level !== level.now ? say('session.nearest') : '';
    session = { format: 1, what, many, worked: 0, clean: 0, items: chosen.map(begin) };
    save();
    root.dataset.practising = 'now';
    show();
    place.scrollIntoView({ block: 'start', behavior: 'instant' });
    problems[0].read();
  };

  /* The level as it is held or followed, wherever it was changed. */
  const showLevel = () => {
    const { level } = record.read();
    form.elements.level.value = level.fixed ? String(level.now) : 'follow';
    const word = form.querySelector(`[data-level-word="${level.now}"]`).textContent;
    const text = say('session.level_now', { level: word });
    const line = form.querySelector('[data-level-now]');
    if (line.textContent !== text) line.textContent = text;
    const waiting = due(pool).length;
    form.querySelector('[data-missed]').textContent = say('session.missed', { count: waiting });
  };

  form.addEventListener('submit', (event) => {
    event.preventDefault();
    start();
  });
  form.elements.level.forEach((radio) => radio.addEventListener('change', () => {
    record.hold(radio.value === 'follow' ? null : Number(radio.value));
  }));

  document.addEventListener('seatwork:record', () => {
    showLevel();
    if (session) count();
  });
  document.addEventListener('seatwork:units', () => {
    problems.forEach((problem) => problem.refresh());
    if (session) numbers();
  });
  document.addEventListener('seatwork:cleared', () => {
    session = null;
    problems = [];
    place.replaceChildren();
    delete root.dataset.practising;
    note.textContent = '';
    showLevel();
  });

  showLevel();
  session = sound(kept.parsed(get(KEY)));
  if (session) {
    form.elements.what.value = session.what;
    if (form.elements.what.selectedIndex < 0) form.elements.what.value = 'all';
    form.elements.many.value = String(session.many);
    show();
  } else delete root.dataset.practising;
})();
