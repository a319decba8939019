import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";

export default defineConfig({
  base: "./",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  // Strict rules of content: no data: addresses, every file a file.
  build: { target: "es2022", assetsInlineLimit: 0 },
  worker: { format: "es" },
  server: { fs: { allow: [".."] } },
  plugins: [
    VitePWA({
      registerType: "prompt",
      injectRegister: false,
      manifest: {
        name: "Pitchboard",
        short_name: "Pitchboard",
        description: "Plans an outdoor stair from tape readings.",
        display: "standalone",
        background_color: "#F6F3EA",
        theme_color: "#20282D",
        icons: [{ src: "icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" }],
      },
      workbox: { globPatterns: ["**/*.{html,js,css,svg,wasm,woff2,webmanifest}"], maximumFileSizeToCacheInBytes: 8_000_000 },
    }),
  ],
});
