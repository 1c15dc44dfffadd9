// What the core says to the person. Each says what is so and what to do.

export const CORE_FAILED =
  "The part of the app that keeps the record has stopped. What you enter is kept as drafts; reload the page to start it again.";

export const LIBRARY_AWAY =
  "The reckonings are not on this device yet: they come by themselves when it next reaches the studio machine.";

export const LIBRARY_FAILED =
  "The reckonings have stopped. Nothing that was recorded is touched; try once more, or reload the page.";

export const STUDIO_FULL = "The studio machine cannot keep more just now. Everything stays on this phone until it can.";

export const PHONE_FULL = "This phone has no room left. Free some space, or save the unsent entries to a file.";

export const NOT_KEPT =
  "This phone has no room left. What you just entered was not kept: free some space, or save the unsent entries to a file, then enter it again.";

export const NO_PICTURE =
  "This picture cannot be read here, or is too large for this browser to make smaller. Take it again as a JPEG of under 1 MB.";

export const NOT_ACCEPTED = "This was not accepted. Look at it again, then keep it once more.";

export const OUT_OF_REACH = "The log of this treatment is on the studio machine, which is out of reach just now.";

export const NO_WORKER =
  "The app could not start here. Reload the page; if that does not help, this browser is too old for it.";

export const NO_DATABASE =
  "This browser does not let the app keep anything, as in a private window. Open it in an ordinary window.";

export const OUTDATED = "A newer version of the app runs in another tab. Reload this one to go on here.";
