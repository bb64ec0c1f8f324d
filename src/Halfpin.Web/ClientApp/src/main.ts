import { start } from "./live";
import { explainTerms } from "./terms";

start();
explainTerms();
