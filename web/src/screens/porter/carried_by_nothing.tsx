/** A code that nothing in the house carries, and the way that is left. */
export function CarriedByNothing({ code }: { code: string }) {
  return (
    <div class="said wrong" role="alert">
      <strong>Nothing in this house carries the code {code}.</strong>
      <span>Type three letters of the item's name instead.</span>
    </div>
  );
}
