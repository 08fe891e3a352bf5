/* What is kept of a problem on this device: its number, what was answered under each system of units, and how the first
   answers went. Whatever else stands there is not ours to trust. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { get, set, asked, say, notice } = SEATWORK;

  /* A number from zero up to `span`, every one of them equally likely. */
  const chance = (span) => {
    const most = Math.floor(2 ** 32 / span) * span;
    const word = new Uint32Array(1);
    do crypto.getRandomValues(word); while (word[0] >= most);
    return word[0] % span;
  };

  /* Five digits. */
  const freshNumber = () => String(10000 + chance(90000));
  /* Whoever sets a problem may choose any number that the command takes. */
  const isNumber = (text) => typeof text === 'string' && /^[1-9][0-9]{0,17}$/.test(text);

  const isObject = (value) => typeof value === 'object' && value !== null && !Array.isArray(value);
  /* A table by names that authors choose: it has nothing of its own, such as `constructor`. */
  const table = (entries = []) => Object.assign(Object.create(null), Object.fromEntries(entries));
  const only = (value, type) =>
    table(Object.entries(isObject(value) ? value : {}).filter(([, each]) => typeof each === type));

  const parsed = (text) => {
    try {
      return JSON.parse(text);
    } catch (broken) {
      return null;
    }
  };

  /* Whoever goes on working must know that it will be lost. Once on a page is enough. */
  let told = false;
  const unkept = () => {
    if (!told) notice(say('kept.refused'));
    told = true;
  };
  const keep = (key, value) => set(key, JSON.stringify(value)) || unkept();

  const begin = (no) => ({ no, us: table(), si: table(), first: table(), opened: false, settled: false, clean: false });

  /* The problem that was kept, or nothing if it is not one of ours. */
  const problem = (found) => (isObject(found) && isNumber(found.no) ? {
    no: found.no,
    us: only(found.us, 'string'),
    si: only(found.si, 'string'),
    first: only(found.first, 'boolean'),
    opened: found.opened === true,
    settled: found.settled === true,
    clean: found.clean === true,
  } : null);

  /* The one problem that is kept of a recipe. An address may name a number, which then takes precedence. */
  const ofRecipe = (id) => {
    const key = `practice/${id}`;
    const named = () => asked.get('p') === id;
    const old = problem(parsed(get(key)));
    const no = named() ? asked.get('no') : null;
    if (no !== null && !isNumber(no)) notice(say('kept.no_such_number'));
    const wanted = isNumber(no) ? no : null;
    const save = (state) => keep(key, state);
    const state = wanted && (!old || old.no !== wanted) ? begin(wanted) : old || begin(freshNumber());
    /* A problem that is being worked on paper must be there again after a reload. */
    if (!old) set(key, JSON.stringify(state));
    /* An address that named the old numbers would bring them back. */
    const renew = () => {
      if (named()) history.replaceState(null, '', location.pathname);
    };
    return { state, save, renew, page: '' };
  };

  Object.assign(SEATWORK, { kept: { chance, freshNumber, isNumber, isObject, table, parsed, unkept, keep, begin, problem, ofRecipe } });
})();
