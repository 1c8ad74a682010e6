/** The tones that plots are drawn in, as CSS colours, and the letters of the page. */

export interface Ink {
  readonly paper: string;
  readonly grid: string;
  readonly line: string;
  readonly soft: string;
  readonly hair: string;
  readonly accent: string;
  readonly air: string;
  readonly font: string;
}
