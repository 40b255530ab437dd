/** Names of the colours of data. */
export type Hue = "blue" | "vermilion" | "green" | "purple";

/**
 * Colours of a picture. Every picture paints its own paper, so it reads the same wherever it is shown.
 *
 * The hues are those of Okabe and Ito that stand out from the paper at 3:1 or more; on dark paper their
 * sky blue and orange take the places of blue and vermilion.
 *
 * Source: Okabe & Ito 2008, Color Universal Design; contrast by WCAG 2.2, success criterion 1.4.11.
 */
export interface Theme {
  readonly paper: string;
  /** Text and the heaviest line. */
  readonly ink: string;
  /** Lesser text: axis titles, tick labels. */
  readonly muted: string;
  /** Hairlines behind the data. */
  readonly grid: string;
  readonly hues: Readonly<Record<Hue, string>>;
}

/** For print and light pages; what files are drawn with. */
export const lightTheme: Theme = {
  paper: "#ffffff",
  ink: "#1d2327",
  muted: "#566067",
  grid: "#e4e5e6",
  hues: { blue: "#0072B2", vermilion: "#D55E00", green: "#009E73", purple: "#CC79A7" },
};

/** For dark pages. */
export const darkTheme: Theme = {
  paper: "#12171a",
  ink: "#eef0ec",
  muted: "#a9b2b5",
  grid: "#2a3236",
  hues: { blue: "#56B4E9", vermilion: "#E69F00", green: "#009E73", purple: "#CC79A7" },
};
