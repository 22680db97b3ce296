/** Every page of the app, below the tank's own address; each is opened at three widths, light and dark. */
export const tankPages = ["today", "scape", "equipment", "water", "animals", "file"] as const;
export const otherPages = ["/", "/tank/not-there/today", "/no-such-page"] as const;
