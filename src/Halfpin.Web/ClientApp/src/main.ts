import { startAreas } from "./areas";
import { start } from "./live";
import { explainTerms } from "./terms";
import { keepTyped } from "./typed";

start();
explainTerms();
keepTyped();
startAreas();
