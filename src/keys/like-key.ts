import { z } from "zod";
import { oscillatorClasses } from "../noise/index.ts";

/** The class an oscillator is like: what its section leaves open is then typical of the class. */
export const likeSchema = z
  .enum(Object.keys(oscillatorClasses) as [string, ...string[]])
  .meta({
    description:
      "A class of oscillators: keys left out take its typical sizes, to be checked against the data sheet",
  })
  .optional();
