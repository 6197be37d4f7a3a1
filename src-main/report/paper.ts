/** The page a report stands on: one style for paper and screen, black on white, for A4 and Letter alike. */
import { spokenLanguage, t } from '../words/words.ts';
import { DEVANAGARI, devanagariFaces } from './devanagari.ts';
import { html, Markup } from './html.ts';

export const PAPERS = ['a4', 'letter'] as const;
export type Paper = (typeof PAPERS)[number];

/** Width that both papers leave inside margins of 13 mm, with a little to spare. */
export const CONTENT_mm = 184;

/**
 * Sizes in mm and pt, so that the drawing prints to its scale. Marks are told apart by shape and word; the two greys carry no
 * meaning of their own.
 */
const style = (paper: Paper): string => `${spokenLanguage() === 'hi' ? devanagariFaces() : ''}
@page { size: ${paper === 'a4' ? 'A4' : 'Letter'} portrait; margin: 11mm 13mm; }
* { box-sizing: border-box; }
html { background: #fff; }
body { margin: 0 auto; width: ${CONTENT_mm}mm; color: #111; font: 8.2pt/1.28 "${DEVANAGARI}", system-ui, "Segoe UI", "Noto Sans", sans-serif; }
header { display: flex; justify-content: space-between; align-items: flex-end; gap: 6mm; border-bottom: 0.5mm solid #111; padding-bottom: 2mm; margin-bottom: 3mm; }
h1 { font-size: 15pt; line-height: 1.15; margin: 0; }
h2 { font-size: 9.5pt; margin: 0 0 1mm; }
p { margin: 0 0 1mm; }
.who { font-size: 10pt; margin: 0.6mm 0 0; }
.soft { color: #444; }
.outcome { text-align: end; font-size: 11pt; font-weight: 600; white-space: nowrap; }
.outcome small { display: block; font-weight: 400; font-size: 8.5pt; white-space: normal; max-width: 52mm; }
.halves { display: grid; grid-template-columns: 1fr 1fr; gap: 6mm; }
.thirds { display: grid; grid-template-columns: repeat(3, 1fr); gap: 1.5mm 4mm; }
figure { margin: 0 0 1mm; break-inside: avoid; }
figcaption { font-size: 7.5pt; font-weight: 600; line-height: 1.2; }
.drawn { display: grid; grid-template-columns: 84mm 1fr; gap: 5mm; }
section { margin-bottom: 2.4mm; break-inside: avoid; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: start; vertical-align: baseline; padding-block: 0.35mm; padding-inline: 0 1.5mm; font-weight: 400; }
thead th { color: #444; border-bottom: 0.2mm solid #111; font-size: 7.5pt; }
thead { display: table-header-group; }
tbody tr { border-bottom: 0.1mm solid #bbb; break-inside: avoid; }
td.n, th.n { text-align: end; white-space: nowrap; font-variant-numeric: tabular-nums; }
.small td, .small th { font-size: 7.5pt; padding-top: 0.1mm; padding-bottom: 0.1mm; line-height: 1.22; }
td.w { white-space: nowrap; }
.mark { white-space: nowrap; font-weight: 600; }
.key { display: grid; grid-template-columns: auto 1fr; gap: 0.2mm 2mm; line-height: 1.2; font-size: 7.5pt; align-items: center; margin-top: 1mm; }
ol { margin: 0; padding-inline-start: 5mm; }
li { break-inside: avoid; }
footer { border-top: 0.3mm solid #111; padding-top: 1.5mm; font-size: 7.8pt; }
footer b { font-size: 8.5pt; }
svg { display: block; }
svg text { font-family: inherit; fill: #111; }
code { font: 7.5pt ui-monospace, "DejaVu Sans Mono", monospace; overflow-wrap: anywhere; }
@media screen { html { background: #ddd; } body { background: #fff; padding: 12mm 13mm; width: ${CONTENT_mm + 26}mm; margin: 6mm auto; } }
@media print { body { -webkit-print-color-adjust: exact; print-color-adjust: exact; } }
`;

/** Nothing may be fetched or run: the page is its own text, its style, its drawings and, where the script needs it, its font. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; base-uri 'none'; form-action 'none'";

/** A whole page. `body` is finished markup; `title` is text. Ends with the caution that every report carries. */
export function page(title: string, paper: Paper, body: Markup, footer: Markup): string {
  const whole = html`<!doctype html>
<html lang="${spokenLanguage()}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width">
<title>${title}</title>
<style>${new Markup(style(paper))}</style>
</head>
<body>
${body}
<footer>${footer}<p><b>${t('report.caution')}</b> ${t('report.cautionMore')}</p></footer>
</body>
</html>
`;
  return whole.text;
}
