// The two voices as the page serves them, with their licence beside them.
import { cpSync, mkdirSync } from "node:fs";

const from = "node_modules/dejavu-fonts-ttf", to = "../wwwroot/dist";
mkdirSync(to, { recursive: true });
for (const face of ["DejaVuSerifCondensed", "DejaVuSansCondensed", "DejaVuSansCondensed-Bold"]) cpSync(`${from}/ttf/${face}.ttf`, `${to}/${face}.ttf`);
cpSync(`${from}/LICENSE`, `${to}/fonts.LICENSE.txt`);
