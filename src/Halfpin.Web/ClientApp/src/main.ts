import { start } from "./live";

start();
