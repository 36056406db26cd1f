// Answers what test_browser.py asks, in the page (`here`) and in a worker (`inWorker`), by the same functions.
import { load } from "./keysquare.mjs";
import { answer } from "./test_answers.mjs";

/** An answer worked out in the page. */
window.here = async (question) => answer(await load(), question);

/** An answer worked out in a worker, which compiles the module itself or is handed the compiled one. */
window.inWorker = (question, module) =>
  new Promise((resolve, reject) => {
    const worker = new Worker("test_worker.mjs", { type: "module" });
    worker.onmessage = ({ data: { said, failed } }) => {
      worker.terminate();
      if (failed === undefined) resolve(said);
      else reject(new Error(failed));
    };
    worker.onerror = ({ message }) => reject(new Error(message));
    worker.postMessage({ question, module });
  });

window.compiled = async () => WebAssembly.compile(await (await fetch("keysquare.wasm")).arrayBuffer());
window.ready = true;
