export { gateGroups } from "./gate-pictures.ts";
export { lessonPage } from "./lesson-page.ts";
export type { PictureContext } from "./picture-context.ts";
export { planPicture } from "./plan-picture.ts";
export { type NamedPicture, readingPictureNames, readingPictures } from "./reading-pictures.ts";
export { type Report, type ReportPart, reportPage } from "./report-page.ts";
