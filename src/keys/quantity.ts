import { z } from "zod";

/**
 * A number of either sign.
 *
 * @param description - what the key means, with its unit
 * @returns the schema of a finite number
 */
export const finite = (description: string) => z.number().meta({ description });

/**
 * A number > 0.
 *
 * @param description - what the key means, with its unit
 * @returns the schema of a finite number > 0
 */
export const positive = (description: string) => z.number().gt(0).meta({ description });

/**
 * A number >= 0.
 *
 * @param description - what the key means, with its unit
 * @returns the schema of a finite number >= 0
 */
export const nonNegative = (description: string) => z.number().min(0).meta({ description });

/**
 * A probability p with 0 <= p < 1.
 *
 * @param description - what the key means
 * @returns the schema of a dimensionless number
 */
export const probability = (description: string) => z.number().min(0).lt(1).meta({ description });

/**
 * A fractional frequency offset: above -1 (a frequency is positive) and below 1.
 *
 * The upper limit catches parts per million written as if they were fractions.
 *
 * @param description - what the key means
 * @returns the schema of a dimensionless number
 */
export const fraction = (description: string) => z.number().gt(-1).lt(1).meta({ description });

/**
 * A whole number >= 1.
 *
 * @param description - what the key means
 * @returns the schema of a dimensionless integer
 */
export const count = (description: string) => z.int().min(1).meta({ description });

/**
 * A number as sentences about keys give it.
 *
 * @param value - any number
 * @returns its shortest form to three significant digits
 */
export const short = (value: number): string => String(Number(value.toPrecision(3)));
