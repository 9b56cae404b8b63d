// Reads handover sheets as others would: `node sheet.mjs MODULES FILE..`. Every fault of the HTML and of what a screen reader needs
// ends it with 1; so does anything the page would load or run.
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";

const [modules, ...files] = process.argv.slice(2);
const require = createRequire(`${modules}/`);
const { HtmlValidate } = require("html-validate");
const { JSDOM } = require("jsdom");
const axe = require("axe-core");

const validator = new HtmlValidate({
    extends: ["html-validate:standard"],
    // Void elements are written as HTML has them, and styles stand in the file because nothing may be loaded.
    rules: { "void-style": "off", "no-inline-style": "off", "svg-focusable": "off", "no-trailing-whitespace": "off" },
});

let faults = 0;
const fault = (file, what) => { faults += 1; console.error(`${file}: ${what}`); };
for (const file of files) {
    const html = readFileSync(file, "utf8");
    const report = await validator.validateString(html, file);
    for (const message of report.results.flatMap((result) => result.messages)) {
        fault(file, `${message.line}: ${message.message} (${message.ruleId})`);
    }
    const dom = new JSDOM(html, { runScripts: "outside-only", pretendToBeVisual: true });
    const { document } = dom.window;
    for (const element of document.querySelectorAll("script, iframe, object, embed, img, link, [src], [onerror], [onload], [href]")) {
        fault(file, `loads or runs something: ${element.outerHTML.slice(0, 80)}`);
    }
    dom.window.eval(axe.source);
    // Colours need a painted page; all text is near black on white.
    const result = await dom.window.axe.run(document, { rules: { "color-contrast": { enabled: false } } });
    for (const violation of result.violations) {
        fault(file, `${violation.id}: ${violation.help}: ${violation.nodes.map((node) => node.html).join(" ").slice(0, 200)}`);
    }
    if (result.passes.length < 10) {
        fault(file, `only ${result.passes.length} rules of accessibility were tried`);
    }
}
console.log(`${files.length} sheets read, ${faults} faults`);
process.exit(faults ? 1 : 0);
