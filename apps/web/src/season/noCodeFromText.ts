// The security policy forbids code made from text. The schemas would try it once as they are made, so this stands before
// whatever makes one: it is the first import of the page and of the worker.
Reflect.set(globalThis, '__zod_globalConfig', { jitless: true });
