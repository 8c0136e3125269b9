import type { Taken } from "../../../door/photos/keeping";
import { attempted, type Problem } from "../../../door/problem";

/** Keep the pictures on this device, before the command that names them; what hindered that. */
export async function kept(pictures: Taken[]): Promise<Problem | null> {
  if (pictures.length === 0) return null;
  return attempted(async () => (await import("../../../door/photos/keeping")).keep(pictures));
}

/** What a body says of its pictures. */
export function naming(pictures: Taken[]): { photos?: string[] } {
  return pictures.length > 0 ? { photos: pictures.map(({ id }) => id) } : {};
}
