import { type Problem, Refused } from "../problem";
import { fitting, LEAST, LONGER, MOST, SMALLER, scaled } from "./scaled";

const UNUSABLE: Problem = {
  type: "about:blank",
  title: "no picture",
  status: 0,
  detail: "That is no picture this device can read.",
  code: "picture_unusable",
  todo: "Take the picture again.",
};

/**
 * A picture as JPEG, upright and small; drawn anew, so that nothing the camera wrote beside it stays.
 *
 * Throws `Refused` where it cannot be read.
 */
export async function drawn(file: Blob, longer = LONGER, most = MOST): Promise<Blob> {
  const seen = await createImageBitmap(file, { imageOrientation: "from-image" }).catch(() => {
    throw new Refused(UNUSABLE);
  });
  const canvas = document.createElement("canvas");
  Object.assign(canvas, scaled(seen, longer));
  const paper = canvas.getContext("2d");
  if (!paper) throw new Refused(UNUSABLE);
  paper.fillStyle = "white";
  paper.fillRect(0, 0, canvas.width, canvas.height);
  paper.drawImage(seen, 0, 0, canvas.width, canvas.height);
  seen.close();
  const made = await fitting((quality) => jpeg(canvas, quality), most);
  if (!made) throw new Refused(UNUSABLE);
  return made;
}

/**
 * The same picture, smaller, for a way to the house that lets no large ones through.
 *
 * Throws `Refused` where it cannot be read.
 */
export function drawnSmaller(picture: Blob): Promise<Blob> {
  return drawn(picture, SMALLER, LEAST);
}

function jpeg(canvas: HTMLCanvasElement, quality: number): Promise<Blob> {
  return new Promise((done, failed) => {
    canvas.toBlob(
      (blob) => (blob ? done(blob) : failed(new Refused(UNUSABLE))),
      "image/jpeg",
      quality,
    );
  });
}
