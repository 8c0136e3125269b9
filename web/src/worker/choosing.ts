/** What a build of the program is made of: each file's path with the SHA-256 of its bytes, as hexadecimal digits. */
export interface Build {
  name: string;
  files: Record<string, string>;
}

/** The first page; every address that is no file's shows it. */
export const PAGE = "/index.html";

const HASHED = "/assets/";

/** What the house itself shows: what is asked, and the pages of the household. */
const OF_THE_HOUSE = ["/api/", "/menu-sheet/", "/my-sheet/"];

/** What a browser asks for: the first page, a file of the program, or something that only the house has. */
export type Wanted = "page" | "file" | null;

/** What a request wants of a build; `path` is that of an address of the house itself. */
export function wanted(path: string, isNavigation: boolean, build: Build): Wanted {
  const last = path.slice(path.lastIndexOf("/") + 1);
  const isOurs = !OF_THE_HOUSE.some((begins) => path.startsWith(begins));
  if (isNavigation && isOurs && !last.includes(".")) return "page";
  return path.startsWith(HASHED) || (path in build.files && path !== PAGE) ? "file" : null;
}

/** Whether a file's name changes with what is in it, so that any build's is the right one. */
export function isHashed(path: string): boolean {
  return path.startsWith(HASHED);
}

/** The build whose page is shown: the one that was taken, if it is whole here; else the worker's own. */
export function shown(own: string, taken: string | null, whole: readonly string[]): string {
  return taken !== null && whole.includes(taken) ? taken : own;
}

/** A file to be had for a build, and the build that has the very same one here already. */
export interface ToHave {
  path: string;
  hash: string;
  from: string | null;
}

/** What a build lacks: what is the same in another whole build is taken from there. */
export function toHave(
  build: Build,
  present: ReadonlySet<string>,
  others: readonly Build[],
): ToHave[] {
  return Object.entries(build.files)
    .filter(([path]) => !present.has(path))
    .map(([path, hash]) => ({
      path,
      hash,
      from: others.find((other) => other.files[path] === hash)?.name ?? null,
    }));
}
