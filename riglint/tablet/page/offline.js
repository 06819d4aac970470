// Whether the page works with no network: said only after every file was found in the store on this device.

export const installed = () => !globalThis.riglintOneFile && "serviceWorker" in navigator && globalThis.isSecureContext;

export async function begin(told) {
  if (!installed()) return;
  try {
    const registration = await navigator.serviceWorker.register("sw.js", { updateViaCache: "none" });
    registration.addEventListener("updatefound", () => watch(registration, told));
    watch(registration, told);
    await navigator.serviceWorker.ready;
    told({ ready: await complete(), waiting: Boolean(registration.waiting) });
    if (navigator.storage?.persist) told({ lasting: await navigator.storage.persist() });
  } catch (error) {
    told({ ready: false, failed: error.message });
  }
}

function watch(registration, told) {
  registration.installing?.addEventListener("statechange", async () => told({ ready: await complete(), waiting: Boolean(registration.waiting) }));
}

export async function complete() {
  try {
    const { store, files } = await (await fetch("build.json")).json();
    const kept = await caches.open(store);
    const found = await Promise.all(files.map((file) => kept.match(new URL(file, document.baseURI).href)));
    return found.every(Boolean);
  } catch {
    return false;
  }
}

// Only when the crew says so: the new form takes over and the page opens anew.
export async function changeOver() {
  const registration = await navigator.serviceWorker.getRegistration();
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  registration?.waiting?.postMessage("change over");
}
