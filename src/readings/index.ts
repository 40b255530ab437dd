export { InputError } from "./input-error.ts";
export { type Note, type NoteCode, noteOf } from "./note.ts";
export { presentPlaces, valuesAt } from "./present-places.ts";
export type { Logged, PeriodReadings, Readings, Stamps, TimeErrorReadings } from "./readings.ts";
export { requireReadings } from "./require-readings.ts";
