import { lightTheme, type Theme } from "./theme.ts";

/** What every chart takes besides its numbers. */
export interface ChartOptions {
  /** Title of the scenario or data, in the user's own words; any text. Empty for none. */
  readonly title: string;
  /** Makes ids unique where several charts share a page: a letter, then letters, digits, `-`, `_`. */
  readonly idPrefix: string;
  /** px, >= 280; default 760. Below 560 the names of the series stand under the plot. */
  readonly width?: number;
  /** px, >= 240; default 440. Grows where the names of the series need more. */
  readonly height?: number;
  /** Default: light, which also prints. */
  readonly theme?: Theme;
  /** Unit of rates: `s/day`, `ms/day`, …, or `fraction`; default: what suits the numbers. */
  readonly rateUnit?: string;
  /** Size on paper, such as `267mm`; default: as many CSS pixels as the picture has. */
  readonly paper?: { readonly width: string; readonly height: string };
}

/**
 * Options with defaults filled in.
 *
 * @param options - as given
 * @returns all of them
 * @throws RangeError if a size or the prefix is not as described
 */
export function completeOptions(
  options: ChartOptions,
): ChartOptions & Required<Omit<ChartOptions, "rateUnit" | "paper">> {
  const { title, idPrefix, width = 760, height = 440, theme = lightTheme } = options;
  if (!/^[A-Za-z][\w-]*$/.test(idPrefix)) {
    throw new RangeError(
      `completeOptions: idPrefix must be a letter followed by letters, digits, - or _, got ${JSON.stringify(idPrefix)}`,
    );
  }
  if (!(width >= 280 && width < Infinity)) {
    throw new RangeError(`completeOptions: width must be >= 280 px, got ${width}`);
  }
  if (!(height >= 240 && height < Infinity)) {
    throw new RangeError(`completeOptions: height must be >= 240 px, got ${height}`);
  }
  return { ...options, title, idPrefix, width, height, theme };
}
