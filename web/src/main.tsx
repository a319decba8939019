import "@fontsource/b612/latin-400.css";
import "@fontsource/b612/latin-700.css";
import "@fontsource/b612-mono/latin-400.css";
import "./style.css";
import { render } from "preact";
import { registerSW } from "virtual:pwa-register";
import { App } from "./app";

if (import.meta.env.PROD) registerSW({ onOfflineReady: () => document.documentElement.toggleAttribute("data-offline-ready", true) });
const page = document.getElementById("page");
if (page) render(<App />, page);
