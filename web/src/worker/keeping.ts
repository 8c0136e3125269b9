import { type Build, isHashed, PAGE, shown, type ToHave, toHave } from "./choosing";

const BEGINS = "build ";
/** Written last: a cache that has it has the whole build. */
const LIST = "/list-of-the-build";
const TAKEN = "taken";

const cacheOf = (name: string): string => BEGINS + name;

async function kept(): Promise<string[]> {
  const names = await caches.keys();
  return names.filter((name) => name.startsWith(BEGINS)).map((name) => name.slice(BEGINS.length));
}

/** The builds that are whole on this device. */
async function whole(): Promise<Build[]> {
  const lists = (await kept()).map(async (name) => {
    const list = await (await caches.open(cacheOf(name))).match(LIST);
    return list ? ((await list.json()) as Build) : null;
  });
  return (await Promise.all(lists)).filter((build) => build !== null);
}

/** How many files are asked for at the same time; the house has others to answer. */
const AT_ONCE = 4;

/**
 * Have a whole build on this device, file by file; what came before a break is not asked for again.
 * Throws where a file is not to be had, or is not the one that the list names: the build is not whole then.
 */
export async function download(build: Build): Promise<void> {
  const cache = await caches.open(cacheOf(build.name));
  if (await cache.match(LIST)) return;
  const requests = await cache.keys();
  const present = new Set(requests.map((request) => new URL(request.url).pathname));
  const lacking = toHave(build, present, await whole());
  const bring = async (): Promise<void> => {
    for (let file = lacking.pop(); file; file = lacking.pop()) {
      await cache.put(file.path, await bytesOf(file));
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, bring));
  await cache.put(LIST, new Response(JSON.stringify(build)));
}

async function bytesOf({ path, hash, from }: ToHave): Promise<Response> {
  const here = from && (await (await caches.open(cacheOf(from))).match(path));
  if (here) return here;
  const reply = await fetch(path, { cache: isHashed(path) ? "default" : "no-cache" });
  const digest = await crypto.subtle.digest("SHA-256", await reply.clone().arrayBuffer());
  const found = Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0"));
  if (!reply.ok || found.join("") !== hash) {
    throw new Error(`${path} is not the file of this build; it is tried again later.`);
  }
  return reply;
}

/** Have the old worker show this build from the next page on. */
export async function take(build: Build): Promise<void> {
  await (await caches.open(TAKEN)).put(`/${TAKEN}`, new Response(build.name));
}

/** Keep nothing but this build: no page of another one is open any more. */
export async function dropOthers(build: Build): Promise<void> {
  const names = await caches.keys();
  const others = names.filter((name) => name !== cacheOf(build.name));
  await Promise.all(others.map((name) => caches.delete(name)));
}

/** The first page of the build that is shown here; undefined where the browser has cleared it. */
export async function page(own: Build): Promise<Response | undefined> {
  return (await caches.open(cacheOf(await shownName(own)))).match(PAGE);
}

/** A file: of the build that is shown, or of any where its name tells what is in it. */
export async function file(own: Build, path: string): Promise<Response | undefined> {
  if (!isHashed(path)) return (await caches.open(cacheOf(await shownName(own)))).match(path);
  for (const name of [own.name, ...(await kept())]) {
    const found = await (await caches.open(cacheOf(name))).match(path);
    if (found) return found;
  }
  return undefined;
}

async function shownName(own: Build): Promise<string> {
  const taken = await caches.match(`/${TAKEN}`, { cacheName: TAKEN });
  if (!taken) return own.name;
  const names = (await whole()).map(({ name }) => name);
  return shown(own.name, await taken.text(), names);
}
