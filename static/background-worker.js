// Runs the app's module beside the page, for work that would hold the page up. The page hands over the
// module as it was compiled, so nothing is fetched or compiled twice; what to do, the module knows.

import start from "{{stillwood-web.js}}";

addEventListener("message", ({ data }) => start({ module_or_path: data }), { once: true });
