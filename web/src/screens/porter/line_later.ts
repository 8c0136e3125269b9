import { later } from "../../parts/later";

/** One line at the door. The camera has it brought, so that a code opens it with the next picture drawn. */
export const Line = later(() => import("./line").then((room) => room.Line));
