// Answers one question of test_page.mjs in a worker.
import { load } from "./keysquare.mjs";
import { answer } from "./test_answers.mjs";

self.onmessage = async ({ data: { question, module } }) => {
  try {
    self.postMessage({ said: answer(await load(module), question) });
  } catch (error) {
    self.postMessage({ failed: String(error) });
  }
};
