import "@fontsource/b612/latin-400.css";
import "@fontsource/b612/latin-700.css";
import "@fontsource/b612-mono/latin-400.css";
import "./style.css";
import { render } from "preact";
import { App } from "./app";

const page = document.getElementById("page");
if (page) render(<App />, page);
