// The page without a network: kept by the browser, and renewed when its user says so.
import { registerSW } from "virtual:pwa-register";

/** Has the page kept for offline use; `newer` gets what to call to change to a newer one, once it is there. */
export function keepPage(newer: (change: () => void) => void): void {
  if (!import.meta.env.PROD) return;
  const change = registerSW({
    onNeedRefresh: () => newer(() => void change(true)),
    onOfflineReady: () => document.documentElement.toggleAttribute("data-offline-ready", true),
  });
}
