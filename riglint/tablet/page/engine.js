// The worker that runs riglint, asked by messages. Where it dies it is started again.

export class Engine {
  constructor(told, kits = new Map()) {
    this.told = told;
    this.waiting = new Map();
    this.count = 0;
    this.kits = kits;
    this.start();
  }

  start() {
    this.told("starting");
    const { worker, given } = parts();
    this.worker = worker;
    this.worker.onmessage = ({ data: { id, answer, error, tried } }) => {
      const waits = this.waiting.get(id);
      if (tried !== undefined) return void waits?.heard(tried);
      this.waiting.delete(id);
      if (error === undefined) waits?.resolve(JSON.parse(answer));
      else waits?.reject(new Error(error));
    };
    this.worker.onerror = (event) => this.broke(event.message || "it stopped");
    this.ready = Promise.resolve(given).then((g) => this.send("start", g)).then(async (about) => {
      for (const [name, text] of this.kits) await this.send("keep", { name, text });
      this.told("ready", about);
      return about;
    });
    this.ready.catch((error) => this.told("broken", error.message));
  }

  broke(reason) {
    this.told("broken", reason);
    for (const { reject } of this.waiting.values()) reject(new Error(reason));
    this.waiting.clear();
  }

  again() {
    this.stop("it is started again");
    this.start();
  }

  stop(reason = "it was stopped") {
    this.worker.terminate();
    this.broke(reason);
  }

  // A second worker, for what takes long: the first one goes on checking what is typed.
  another() {
    return new Engine(() => {}, new Map(this.kits));
  }

  send(call, given, heard = () => {}) {
    const id = ++this.count;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject, heard });
      this.worker.postMessage({ id, call, given });
    });
  }

  async work(text, options) {
    await this.ready;
    return this.send("work", { text, options });
  }

  async remedies(text, options, heard) {
    await this.ready;
    return this.send("remedies", { text, options }, heard);
  }

  async keepKit(name, text) {
    await this.ready;
    const answer = await this.send("keep", { name, text });
    if (!answer.problems) this.kits.set(name, text);
    return answer;
  }
}

// Where the worker's parts are: beside the page, or, in the one file, in the page itself.
function parts() {
  if (globalThis.riglintOneFile) return globalThis.riglintOneFile();
  const at = (name) => new URL(name, document.baseURI).href;
  const modules = { "pyodide.mjs": at("engine/pyodide.mjs"), "pyodide.asm.mjs": at("engine/pyodide.asm.mjs") };
  return {
    worker: new Worker(at("worker.js"), { type: "module" }),
    given: { modules, folder: at("engine/"), engineName: "engine.zip" },
  };
}
