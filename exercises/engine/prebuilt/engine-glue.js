let wasm_bindgen = (function(exports) {
    let script_src;
    if (typeof document !== 'undefined' && document.currentScript !== null) {
        script_src = new URL(document.currentScript.src, location.href).toString();
    }

    /**
     * A compiled recipe, read and ready to draw from.
     */
    class Recipe {
        __destroy_into_raw() {
            const ptr = this.__wbg_ptr;
            this.__wbg_ptr = 0;
            RecipeFinalization.unregister(this);
            return ptr;
        }
        free() {
            const ptr = this.__destroy_into_raw();
            wasm.__wbg_recipe_free(ptr, 0);
        }
        /**
         * Draws a problem: JSON of its statement, givens and parts. Ids in its drawings begin with `ids`.
         * @param {string} seed
         * @param {number} attempt
         * @param {string} system
         * @param {string} decimal_mark
         * @param {string} ids
         * @returns {string}
         */
        draw(seed, attempt, system, decimal_mark, ids) {
            let deferred6_0;
            let deferred6_1;
            try {
                const val5 = +attempt;
                let ptr0, len0, ptr1, len1, ptr2, len2, ptr3, len3;
                try {
                    ptr0 = passStringToWasm0(seed, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                    len0 = WASM_VECTOR_LEN;
                    ptr1 = passStringToWasm0(system, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                    len1 = WASM_VECTOR_LEN;
                    ptr2 = passStringToWasm0(decimal_mark, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                    len2 = WASM_VECTOR_LEN;
                    ptr3 = passStringToWasm0(ids, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                    len3 = WASM_VECTOR_LEN;
                } catch (e) {
                    if (ptr3) { wasm.__wbindgen_free(ptr3, len3 * 1, 1); }
                    if (ptr2) { wasm.__wbindgen_free(ptr2, len2 * 1, 1); }
                    if (ptr1) { wasm.__wbindgen_free(ptr1, len1 * 1, 1); }
                    if (ptr0) { wasm.__wbindgen_free(ptr0, len0 * 1, 1); }
                    throw e;
                }
                const ret = wasm.recipe_draw(this.__wbg_ptr, ptr0, len0, val5, ptr1, len1, ptr2, len2, ptr3, len3);
                deferred6_0 = ret[0];
                deferred6_1 = ret[1];
                return getStringFromWasm0(ret[0], ret[1]);
            } finally {
                wasm.__wbindgen_free(deferred6_0, deferred6_1, 1);
            }
        }
        /**
         * Marks what was typed for the parts (JSON: a text by name): JSON of the credit and of the verdict of every part.
         * @param {string} seed
         * @param {number} attempt
         * @param {string} system
         * @param {string} decimal_mark
         * @param {string} answers
         * @returns {string}
         */
        mark(seed, attempt, system, decimal_mark, answers) {
            let deferred6_0;
            let deferred6_1;
            try {
                const val5 = +attempt;
                let ptr0, len0, ptr1, len1, ptr2, len2, ptr3, len3;
                try {
                    ptr0 = passStringToWasm0(seed, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                    len0 = WASM_VECTOR_LEN;
                    ptr1 = passStringToWasm0(system, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                    len1 = WASM_VECTOR_LEN;
                    ptr2 = passStringToWasm0(decimal_mark, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                    len2 = WASM_VECTOR_LEN;
                    ptr3 = passStringToWasm0(answers, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                    len3 = WASM_VECTOR_LEN;
                } catch (e) {
                    if (ptr3) { wasm.__wbindgen_free(ptr3, len3 * 1, 1); }
                    if (ptr2) { wasm.__wbindgen_free(ptr2, len2 * 1, 1); }
                    if (ptr1) { wasm.__wbindgen_free(ptr1, len1 * 1, 1); }
                    if (ptr0) { wasm.__wbindgen_free(ptr0, len0 * 1, 1); }
                    throw e;
                }
                const ret = wasm.recipe_mark(this.__wbg_ptr, ptr0, len0, val5, ptr1, len1, ptr2, len2, ptr3, len3);
                deferred6_0 = ret[0];
                deferred6_1 = ret[1];
                return getStringFromWasm0(ret[0], ret[1]);
            } finally {
                wasm.__wbindgen_free(deferred6_0, deferred6_1, 1);
            }
        }
        /**
         * Reads a compiled recipe from its JSON text. One that cannot be read answers every call with a fault.
         * @param {string} text
         */
        constructor(text) {
            const ptr0 = passStringToWasm0(text, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
            const len0 = WASM_VECTOR_LEN;
            const ret = wasm.recipe_new(ptr0, len0);
            this.__wbg_ptr = ret;
            RecipeFinalization.register(this, this.__wbg_ptr, this);
            return this;
        }
        /**
         * Draws so many problems, marks the right answer of a part in each, and gives how many were right: for measuring.
         * @param {string} part
         * @param {number} times
         * @returns {number}
         */
        repeat(part, times) {
            const val2 = +times;
            const ptr0 = passStringToWasm0(part, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
            const len0 = WASM_VECTOR_LEN;
            const ret = wasm.recipe_repeat(this.__wbg_ptr, ptr0, len0, val2);
            return ret >>> 0;
        }
        /**
         * Works a problem: JSON of the right answers and the working.
         * @param {string} seed
         * @param {number} attempt
         * @param {string} system
         * @param {string} decimal_mark
         * @returns {string}
         */
        solve(seed, attempt, system, decimal_mark) {
            let deferred5_0;
            let deferred5_1;
            try {
                const val4 = +attempt;
                let ptr0, len0, ptr1, len1, ptr2, len2;
                try {
                    ptr0 = passStringToWasm0(seed, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                    len0 = WASM_VECTOR_LEN;
                    ptr1 = passStringToWasm0(system, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                    len1 = WASM_VECTOR_LEN;
                    ptr2 = passStringToWasm0(decimal_mark, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                    len2 = WASM_VECTOR_LEN;
                } catch (e) {
                    if (ptr2) { wasm.__wbindgen_free(ptr2, len2 * 1, 1); }
                    if (ptr1) { wasm.__wbindgen_free(ptr1, len1 * 1, 1); }
                    if (ptr0) { wasm.__wbindgen_free(ptr0, len0 * 1, 1); }
                    throw e;
                }
                const ret = wasm.recipe_solve(this.__wbg_ptr, ptr0, len0, val4, ptr1, len1, ptr2, len2);
                deferred5_0 = ret[0];
                deferred5_1 = ret[1];
                return getStringFromWasm0(ret[0], ret[1]);
            } finally {
                wasm.__wbindgen_free(deferred5_0, deferred5_1, 1);
            }
        }
    }
    if (Symbol.dispose) Recipe.prototype[Symbol.dispose] = Recipe.prototype.free;
    exports.Recipe = Recipe;

    /**
     * The bits of a relation's outputs, in hexadecimal, for inputs given in SI units by their bits, in the order of the
     * registry; a choice is given by its name. For the proof that native and wasm agree to the last bit.
     * @param {string} relation
     * @param {string} _arguments
     * @returns {string}
     */
    function bits(relation, _arguments) {
        let deferred3_0;
        let deferred3_1;
        try {
            let ptr0, len0, ptr1, len1;
            try {
                ptr0 = passStringToWasm0(relation, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                len0 = WASM_VECTOR_LEN;
                ptr1 = passStringToWasm0(_arguments, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                len1 = WASM_VECTOR_LEN;
            } catch (e) {
                if (ptr1) { wasm.__wbindgen_free(ptr1, len1 * 1, 1); }
                if (ptr0) { wasm.__wbindgen_free(ptr0, len0 * 1, 1); }
                throw e;
            }
            const ret = wasm.bits(ptr0, len0, ptr1, len1);
            deferred3_0 = ret[0];
            deferred3_1 = ret[1];
            return getStringFromWasm0(ret[0], ret[1]);
        } finally {
            wasm.__wbindgen_free(deferred3_0, deferred3_1, 1);
        }
    }
    exports.bits = bits;

    /**
     * The attempt that a learner starts with.
     * @returns {number}
     */
    function first_attempt() {
        const ret = wasm.first_attempt();
        return ret >>> 0;
    }
    exports.first_attempt = first_attempt;

    /**
     * Makes the relations of a course known that a page carries for a calculator; whether they could be read.
     * @param {string} relations
     * @returns {boolean}
     */
    function learn(relations) {
        const ptr0 = passStringToWasm0(relations, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
        const len0 = WASM_VECTOR_LEN;
        const ret = wasm.learn(ptr0, len0);
        return ret !== 0;
    }
    exports.learn = learn;

    /**
     * The same, worked so many times over: for measuring.
     * @param {string} relation
     * @param {string} _arguments
     * @param {number} times
     * @returns {string}
     */
    function repeat(relation, _arguments, times) {
        let deferred4_0;
        let deferred4_1;
        try {
            const val3 = +times;
            let ptr0, len0, ptr1, len1;
            try {
                ptr0 = passStringToWasm0(relation, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                len0 = WASM_VECTOR_LEN;
                ptr1 = passStringToWasm0(_arguments, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                len1 = WASM_VECTOR_LEN;
            } catch (e) {
                if (ptr1) { wasm.__wbindgen_free(ptr1, len1 * 1, 1); }
                if (ptr0) { wasm.__wbindgen_free(ptr0, len0 * 1, 1); }
                throw e;
            }
            const ret = wasm.repeat(ptr0, len0, ptr1, len1, val3);
            deferred4_0 = ret[0];
            deferred4_1 = ret[1];
            return getStringFromWasm0(ret[0], ret[1]);
        } finally {
            wasm.__wbindgen_free(deferred4_0, deferred4_1, 1);
        }
    }
    exports.repeat = repeat;

    /**
     * Works a relation for typed inputs (JSON: a text by name), with the result in a unit or, where that is empty, in the
     * usual one: JSON of the result, or of the fault with the input to blame.
     * @param {string} relation
     * @param {string} inputs
     * @param {string} unit
     * @param {string} system
     * @param {string} decimal_mark
     * @returns {string}
     */
    function work(relation, inputs, unit, system, decimal_mark) {
        let deferred6_0;
        let deferred6_1;
        try {
            let ptr0, len0, ptr1, len1, ptr2, len2, ptr3, len3, ptr4, len4;
            try {
                ptr0 = passStringToWasm0(relation, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                len0 = WASM_VECTOR_LEN;
                ptr1 = passStringToWasm0(inputs, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                len1 = WASM_VECTOR_LEN;
                ptr2 = passStringToWasm0(unit, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                len2 = WASM_VECTOR_LEN;
                ptr3 = passStringToWasm0(system, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                len3 = WASM_VECTOR_LEN;
                ptr4 = passStringToWasm0(decimal_mark, wasm.__wbindgen_malloc, wasm.__wbindgen_realloc);
                len4 = WASM_VECTOR_LEN;
            } catch (e) {
                if (ptr4) { wasm.__wbindgen_free(ptr4, len4 * 1, 1); }
                if (ptr3) { wasm.__wbindgen_free(ptr3, len3 * 1, 1); }
                if (ptr2) { wasm.__wbindgen_free(ptr2, len2 * 1, 1); }
                if (ptr1) { wasm.__wbindgen_free(ptr1, len1 * 1, 1); }
                if (ptr0) { wasm.__wbindgen_free(ptr0, len0 * 1, 1); }
                throw e;
            }
            const ret = wasm.work(ptr0, len0, ptr1, len1, ptr2, len2, ptr3, len3, ptr4, len4);
            deferred6_0 = ret[0];
            deferred6_1 = ret[1];
            return getStringFromWasm0(ret[0], ret[1]);
        } finally {
            wasm.__wbindgen_free(deferred6_0, deferred6_1, 1);
        }
    }
    exports.work = work;
    function __wbg_get_imports() {
        const import0 = {
            __proto__: null,
            __wbg___wbindgen_throw_4c88d8bf264fd984: function(arg0, arg1) {
                throw new Error(getStringFromWasm0(arg0, arg1));
            },
            __wbindgen_init_externref_table: function() {
                const table = wasm.__wbindgen_externrefs;
                table.set(0, undefined);
                table.set(1024, undefined);
                table.set(1025, null);
                table.set(1026, true);
                table.set(1027, false);
            },
        };
        return {
            __proto__: null,
            "./engine_bg.js": import0,
        };
    }

    const RecipeFinalization = (typeof FinalizationRegistry === 'undefined')
        ? { register: () => {}, unregister: () => {} }
        : new FinalizationRegistry(ptr => wasm.__wbg_recipe_free(ptr, 1));

    function getStringFromWasm0(ptr, len) {
        ptr = ptr >>> 0;
        return decodeText(getUint8ArrayMemory0().subarray(ptr, ptr + len));
    }

    let cachedUint8ArrayMemory0 = null;
    function getUint8ArrayMemory0() {
        if (cachedUint8ArrayMemory0 === null || cachedUint8ArrayMemory0.byteLength === 0) {
            cachedUint8ArrayMemory0 = new Uint8Array(wasm.memory.buffer);
        }
        return cachedUint8ArrayMemory0;
    }

    function passStringToWasm0(arg, malloc, realloc) {
        if (realloc === undefined) {
            const buf = cachedTextEncoder.encode(arg);
            const ptr = malloc(buf.length, 1) >>> 0;
            getUint8ArrayMemory0().subarray(ptr, ptr + buf.length).set(buf);
            WASM_VECTOR_LEN = buf.length;
            return ptr;
        }

        let len = arg.length;
        let ptr = malloc(len, 1) >>> 0;

        const mem = getUint8ArrayMemory0();

        let offset = 0;

        for (; offset < len; offset++) {
            const code = arg.charCodeAt(offset);
            if (code > 0x7F) break;
            mem[ptr + offset] = code;
        }
        if (offset !== len) {
            if (offset !== 0) {
                arg = arg.slice(offset);
            }
            ptr = realloc(ptr, len, len = offset + arg.length * 3, 1) >>> 0;
            const view = getUint8ArrayMemory0().subarray(ptr + offset, ptr + len);
            const ret = cachedTextEncoder.encodeInto(arg, view);

            offset += ret.written;
            ptr = realloc(ptr, len, offset, 1) >>> 0;
        }

        WASM_VECTOR_LEN = offset;
        return ptr;
    }

    let cachedTextDecoder = new TextDecoder('utf-8', { ignoreBOM: true });
    cachedTextDecoder.decode();
    function decodeText(bytes) {
        return cachedTextDecoder.decode(bytes);
    }

    const cachedTextEncoder = new TextEncoder();

    if (!('encodeInto' in cachedTextEncoder)) {
        cachedTextEncoder.encodeInto = function (arg, view) {
            const buf = cachedTextEncoder.encode(arg);
            view.set(buf);
            return {
                read: arg.length,
                written: buf.length
            };
        };
    }

    let WASM_VECTOR_LEN = 0;

    let wasmModule, wasmInstance, wasm;
    function __wbg_finalize_init(instance, module) {
        wasmInstance = instance;
        wasm = instance.exports;
        wasmModule = module;
        cachedUint8ArrayMemory0 = null;
        wasm.__wbindgen_start();
        return wasm;
    }

    async function __wbg_load(module, imports) {
        if (typeof Response === 'function' && module instanceof Response) {
            if (!module.ok) {
                throw new Error(`failed to fetch Wasm: ${module.status} ${module.statusText} fetching '${module.url}'`);
            }

            if (typeof WebAssembly.instantiateStreaming === 'function') {
                try {
                    return await WebAssembly.instantiateStreaming(module, imports);
                } catch (e) {
                    const validResponse = expectedResponseType(module.type);

                    if (validResponse && module.headers.get('Content-Type') !== 'application/wasm') {
                        console.warn("`WebAssembly.instantiateStreaming` failed because your server does not serve Wasm with `application/wasm` MIME type. Falling back to `WebAssembly.instantiate` which is slower. Original error:\n", e);

                    } else { throw e; }
                }
            }

            const bytes = await module.arrayBuffer();
            return await WebAssembly.instantiate(bytes, imports);
        } else {
            const instance = await WebAssembly.instantiate(module, imports);

            if (instance instanceof WebAssembly.Instance) {
                return { instance, module };
            } else {
                return instance;
            }
        }

        function expectedResponseType(type) {
            switch (type) {
                case 'basic': case 'cors': case 'default': return true;
            }
            return false;
        }
    }

    function initSync(module) {
        if (wasm !== undefined) return wasm;


        if (module !== undefined) {
            if (Object.getPrototypeOf(module) === Object.prototype) {
                ({module} = module)
            } else {
                console.warn('using deprecated parameters for `initSync()`; pass a single object instead')
            }
        }

        const imports = __wbg_get_imports();
        if (!(module instanceof WebAssembly.Module)) {
            module = new WebAssembly.Module(module);
        }
        const instance = new WebAssembly.Instance(module, imports);
        return __wbg_finalize_init(instance, module);
    }

    let __wbg_init_promise;
    async function __wbg_init(module_or_path) {
        if (wasm !== undefined) return wasm;
        if (__wbg_init_promise === undefined) {
            __wbg_init_promise = __wbg_init_once(module_or_path);
            __wbg_init_promise.catch(() => { __wbg_init_promise = undefined; });
        }
        return __wbg_init_promise;
    }

    async function __wbg_init_once(module_or_path) {

        if (module_or_path !== undefined) {
            if (Object.getPrototypeOf(module_or_path) === Object.prototype) {
                ({module_or_path} = module_or_path)
            } else {
                console.warn('using deprecated parameters for the initialization function; pass a single object instead')
            }
        }


        const imports = __wbg_get_imports();

        if (typeof module_or_path === 'string' || (typeof Request === 'function' && module_or_path instanceof Request) || (typeof URL === 'function' && module_or_path instanceof URL)) {
            module_or_path = fetch(module_or_path);
        }

        const { instance, module } = await __wbg_load(await module_or_path, imports);

        return __wbg_finalize_init(instance, module);
    }

    return Object.assign(__wbg_init, { initSync }, exports);
})({ __proto__: null });
