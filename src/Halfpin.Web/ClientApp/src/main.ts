export { createViewer } from "./viewer/viewer";
export type * from "./viewer/scene";
