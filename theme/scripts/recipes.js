/* Recipes: read once, from what the page brought along or from their own file, which is fetched as a script on the first
   need. Pages that offer many problems so load only those that are worked. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const folder = new URL('../recipes/', document.currentScript.src);
  const recipes = new Map();
  const waiting = new Map();

  /* A recipe may be called what every object has anyway, such as `constructor`. */
  const text = (id) => {
    const all = window.SEATWORK_RECIPES || {};
    return Object.hasOwn(all, id) ? all[id] : undefined;
  };

  const read = (id) => {
    if (!recipes.has(id)) {
      const { Recipe } = SEATWORK.engine();
      recipes.set(id, new Recipe(text(id)));
    }
    return recipes.get(id);
  };

  const load = (id) => new Promise((done, refused) => {
    const script = document.createElement('script');
    script.src = new URL(`${id}.js`, folder).href;
    script.addEventListener('load', done);
    script.addEventListener('error', () => refused(new Error(`no recipe at ${script.src}`)));
    document.head.append(script);
  });

  /* Hands the recipe over: at once where it is here, so that a page can be printed without waiting; else when it has come.
     What goes wrong, here or in `then`, goes to `otherwise`. */
  SEATWORK.recipe = (id, then, otherwise) => {
    const give = () => {
      try {
        then(read(id));
      } catch (refused) {
        otherwise(refused);
      }
    };
    if (text(id)) {
      give();
      return;
    }
    if (!waiting.has(id)) waiting.set(id, load(id));
    waiting.get(id).then(give, otherwise);
  };
})();
