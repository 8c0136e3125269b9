import "../../../look/recipes.css";
import { below } from "../../../parts/router";
import { Bring } from "./bring";
import { ChangeRecipe, NewRecipe } from "./editor";
import { RecipeList } from "./list";
import { RecipePage } from "./page";

/** The recipes of the house: all of them, one, one that is written, one that is brought. */
export function Recipes() {
  const [first, second] = below("/recipes");
  if (first === "new") return <NewRecipe />;
  if (first === "bring") return <Bring />;
  if (first && second === "change") return <ChangeRecipe key={first} recipe={first} />;
  if (first) return <RecipePage key={first} recipe={first} />;
  return <RecipeList />;
}
