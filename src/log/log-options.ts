/** What is said about a log beside it. */
export interface LogOptions {
  /** Name of the file or stream, for messages. */
  readonly file: string;
  /** Column that holds the readings; its name, or its number from 1. */
  readonly column?: string;
  /** Nominal period; s, > 0. */
  readonly nominalPeriod?: number;
  /** Whether bare numbers are frequencies; where the nominal period is given, and nothing else says it, they are periods. */
  readonly isFrequency?: boolean;
  /** Length of a reading; s, > 0. For time errors their spacing. */
  readonly gate?: number;
  /** Whether each reading begins at the last edge of the one before. */
  readonly backToBack?: boolean;
  /** Dead time between readings; s, >= 0; 0 = back to back. */
  readonly deadTime?: number;
  /** Column that holds the temperature in °C. */
  readonly temperature?: string;
  /** Which number of a date such as 05/06/2024 comes first. */
  readonly dates?: "day-first" | "month-first";
}
