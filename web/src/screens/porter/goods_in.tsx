import { later } from "../../parts/later";
import { below } from "../../parts/router";
import { Expected } from "./expected";
import { HeardWord } from "./heard";
import { PUT_AWAY, WITHOUT } from "./keys";
import { Line } from "./line_later";

const Delivery = later(() => import("./delivery").then((room) => room.Delivery));
const PuttingAway = later(() => import("./putting_away").then((room) => room.PuttingAway));

/** The back door: what is expected, one delivery, one line of it. */
export function GoodsIn() {
  return (
    <>
      <HeardWord />
      <Here />
    </>
  );
}

function Here() {
  const [first, second, ...rest] = below("/goods-in");
  if (first === PUT_AWAY) return <PuttingAway />;
  if (!first || !second) return <Expected />;
  if (first === WITHOUT) return <Line key={second} order={null} of={[second]} />;
  const order = `${first}/${second}`;
  if (rest.length === 0) return <Delivery key={order} order={order} />;
  return <Line key={[order, ...rest].join("/")} order={order} of={rest} />;
}
