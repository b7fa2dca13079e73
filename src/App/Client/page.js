// The page's own script. Blazor is started from here, so that the cover for a lost connection is ours.
import { cover } from "./cover.js";
import { hands } from "./hands.js";
import { photos } from "./photo.js";

cover();

export { hands, photos };
