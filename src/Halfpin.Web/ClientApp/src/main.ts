import { startAreas } from "./areas";
import { start } from "./live";

start();
startAreas();
