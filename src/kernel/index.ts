export { Edge, mark } from "./edge.ts";
export { EventQueue, type ScheduledEvent } from "./event-queue.ts";
export { type Process, Simulator } from "./simulator.ts";
