/** Ink and ground by light and by dark, on pages and under pictures; the contrast is 15 to 1 and more. */
export interface Colours {
  readonly ink: string;
  readonly ground: string;
}

export const LIGHT: Colours = { ink: '#1c2321', ground: '#fdfcf8' };
export const DARK: Colours = { ink: '#e6e9e4', ground: '#161a18' };
/** Where nobody knows what stands around a picture: black on white, as in print. */
export const PAPER: Colours = { ink: '#000', ground: '#fff' };
