/* Starts the calculation engine from the text that carries it, once, when it is first needed. */
(() => {
  'use strict';

  const bytes = (text) => {
    const binary = atob(text);
    const module = new Uint8Array(binary.length);
    for (let index = 0; index < binary.length; index += 1) module[index] = binary.charCodeAt(index);
    return module;
  };

  let engine = null;

  /* Gives the engine, or throws where the browser cannot run it. */
  window.SEATWORK.engine = () => {
    if (!engine) {
      wasm_bindgen.initSync({ module: bytes(window.SEATWORK_ENGINE) });
      window.SEATWORK_ENGINE = null;
      engine = wasm_bindgen;
    }
    return engine;
  };
})();
