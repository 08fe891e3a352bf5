/* Which recipes a learner is given: by level, and first what is due again, then what was never tried. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { record, kept } = SEATWORK;

  const shuffled = (list) => {
    const all = [...list];
    for (let last = all.length - 1; last > 0; last -= 1) {
      const place = kept.chance(last + 1);
      [all[last], all[place]] = [all[place], all[last]];
    }
    return all;
  };

  /* Stable, so that recipes of equal rank stay shuffled. */
  const ranked = (list, rank) => [...list].sort((one, other) => rank(one) - rank(other));

  const urgency = (recipes) => ({ id }) => {
    const entry = recipes[id];
    if (!entry) return 1;
    return record.isDue(entry) ? 0 : 2;
  };

  /* What was tried and has come again. */
  const due = (pool) => {
    const { recipes } = record.read();
    return pool.filter(({ id }) => recipes[id] && record.isDue(recipes[id]));
  };

  /* Those of the level, or if there are none, those of the nearest level. */
  const nearest = (pool, level) => {
    const away = ({ level: of }) => Math.abs(of - level);
    const least = Math.min(...pool.map(away));
    return pool.filter((each) => away(each) === least);
  };

  /* So many recipes out of a pool, none twice before each had its turn, and `last` not at once again where there is
     another. A level that is held keeps to itself; one that follows the learner reaches further when it runs out. */
  const choose = (pool, count, last = null) => {
    const { recipes, level } = record.read();
    const away = ({ level: of }) => Math.abs(of - level.now);
    const near = level.fixed ? nearest(pool, level.now) : pool;
    const inTurn = ranked(ranked(shuffled(near), urgency(recipes)), away);
    const others = inTurn.filter(({ id }) => id !== last);
    const line = others.length > 0 ? others : inTurn;
    return Array.from({ length: count }, (each, place) => line[place % line.length]);
  };

  Object.assign(SEATWORK, { choose, due });
})();
