/** Where one delivery of a supplier is looked at. */
export function linkOf(of: { supplierId: string; delivery: string }): string {
  return `/order-desk/${encodeURIComponent(of.supplierId)}/${encodeURIComponent(of.delivery)}`;
}
