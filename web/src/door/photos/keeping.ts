import { type Problem, Refused } from "../problem";
import { store } from "../store";
import { sendPictures } from "./sending";

/** A picture in hand, not kept yet. */
export interface Taken {
  id: string;
  bytes: Blob;
}

const NO_ROOM: Problem = {
  type: "about:blank",
  title: "not kept",
  status: 0,
  detail: "This device could not keep the picture.",
  code: "picture_not_kept",
  todo: "Make room on the device, or take the picture away and record the line without it.",
};

/**
 * Keep pictures on this device, written through to the disk, before the command that names them is given.
 *
 * Throws `Refused` where the device has no room.
 */
export async function keep(pictures: Taken[]): Promise<void> {
  const open = await store();
  const change = open.transaction("pictures", "readwrite", { durability: "strict" });
  const puts = pictures.map((picture) =>
    change.store.put({ ...picture, takenAt: Date.now(), sentAt: null }),
  );
  try {
    await Promise.all([...puts, change.done]);
  } catch (error) {
    if (error instanceof DOMException) throw new Refused(NO_ROOM);
    throw error;
  }
  void sendPictures();
}
