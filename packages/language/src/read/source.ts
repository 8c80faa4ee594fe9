/** What comes of asking for a sheet's text. */
export type SheetText =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'missing' }
  | { readonly kind: 'unreadable' };

/** How to get a sheet's text; the command reads files, the editor its buffers. */
export interface SheetSource {
  read(uri: string): Promise<SheetText>;
}
