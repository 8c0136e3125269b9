/** A link to a sheet, and what the house keeps of it: only this screen ever has the link itself. */
export interface SheetLink {
  address: string;
  /** The SHA-256 of what the link ends with, in hexadecimal. */
  kept: string;
}

const BYTES = 32;

/** Whether this browser can make one: it needs a connection that is private. */
export function canLink(): boolean {
  return globalThis.crypto?.subtle !== undefined;
}

/** A new link of 256 random bits to a page of the house at `origin`. */
export async function newLink(origin: string): Promise<SheetLink> {
  const bytes = crypto.getRandomValues(new Uint8Array(BYTES));
  const secret = btoa(String.fromCharCode(...bytes))
    .replaceAll("+", "-")
    .replaceAll("/", "_")
    .replaceAll("=", "");
  const hash = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(secret));
  const kept = Array.from(new Uint8Array(hash), (byte) => byte.toString(16).padStart(2, "0"));
  return { address: `${origin}/menu-sheet/${secret}`, kept: kept.join("") };
}
