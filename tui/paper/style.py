"""The style sheet of the card: a grid on paper, blocks one under the other on a phone."""

_TICK = "transparent 44%, black 44% 56%, transparent 56%"
_FONT = "Helvetica, Arial, sans-serif"

_EVERYWHERE = f"""
* {{ box-sizing: border-box }}
body {{ font: SIZEpt/1.12 {_FONT}; color: black; background: white; margin: 0 auto; max-width: 196mm }}
h1 {{ font-size: 1.7em; margin: 0 0 1mm }} h2 {{ font-size: 1.2em; margin: 0; line-height: 1.12 }} p {{ margin: 0 }}
ul {{ list-style: none; margin: 0; padding: 0 }}
svg {{ display: block; max-width: 100% }} svg text {{ font-family: {_FONT} }}
.head.one {{ display: grid; grid-template-columns: LEFTmm 1fr; gap: 3mm }}
.head.more {{ display: grid; gap: 1mm }} .head.plain ul {{ columns: 1 }}
.head.plain .told, .head ul {{ columns: 2; column-gap: 3mm }}
li {{ break-inside: avoid; padding-left: 1.5em; text-indent: -1.5em }}
.head.more {{ grid-template-columns: auto auto 1fr }}
.card tbody.strip th {{ border-top: 0.5mm solid black }} tbody.strip {{ break-after: avoid }}
.card tbody.foot-of td {{ border: 0; padding-left: 13mm }} tbody.foot-of {{ break-before: avoid }}
.held {{ display: grid; grid-template-columns: auto 1fr; gap: 4mm; font-weight: normal }}
.held .told {{ display: flex; flex-wrap: wrap; gap: 0 4mm; align-items: baseline }} dl {{ display: contents }}
dl div {{ display: flex; gap: 1mm; align-items: baseline }}
dd {{ margin: 0 }} dt, th, .gate {{ font-weight: bold }} dd input[type=text] {{ width: 13mm; height: 1.2em }}
table {{ border-collapse: collapse; width: 100%; table-layout: fixed }}
caption {{ text-align: left; font-weight: bold }}
.card caption {{ position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%) }}
th, td {{ text-align: left; vertical-align: top; padding: 0.05mm 0.5mm; overflow-wrap: anywhere }}
.card th, .card td {{ border-bottom: 0.13mm solid black }} th p {{ font-weight: normal }}
.card thead th {{ font-size: 0.9em; border-bottom: 0.25mm solid black }}
tbody, tr {{ break-inside: avoid }} .card tr.more td, .card tr.more th {{ border-bottom: 0 }}
.ticks td, .warned td {{ padding-left: 13mm }} .warned:not(:last-child) td {{ border-bottom: 0 }} .tool {{ display: block }}
.ticks td > b {{ margin-right: 2mm }}
.tick {{ display: inline-block; margin-right: 2mm; line-height: 1.25 }} .tick.bare {{ margin-right: 0.6mm }}
.small {{ font-size: 0.93em }} .set {{ display: inline-block; margin-right: 1mm }}
figure {{ margin: 1mm 3mm 0 0; break-inside: avoid; display: inline-block; vertical-align: top; max-width: 100% }}
input {{ font: inherit; margin: 0 0.3mm; vertical-align: -0.4mm; border-radius: 0; background: white; min-width: 0 }}
input[type=checkbox] {{ appearance: none; width: min(2.4mm, 1.13em); height: min(2.4mm, 1.13em); border: 0.2mm solid black }}
input[type=checkbox]:checked {{ background: linear-gradient(45deg, {_TICK}), linear-gradient(-45deg, {_TICK});
print-color-adjust: exact }}
input[type=text] {{ border: 0; border-bottom: 0.13mm solid black; height: min(4.2mm, 1.7em); padding: 0 }}
td input[type=text] {{ width: 9.5mm }} td.one input[type=text] {{ width: 20mm }}
.behind {{ break-before: page }} .behind h2 {{ margin-top: 3mm; break-after: avoid }}
.behind table {{ table-layout: auto; width: auto; margin: 1mm 0 }}
.behind th, .behind td {{ border: 0.13mm solid black; padding: 0.3mm 1mm }}
.n {{ text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap }}
"""

_PAPER = f"""
@page {{ margin: 6.5mm 7mm 10mm; @bottom-left {{ content: "FOOT"; font: 7pt {_FONT} }}
@bottom-right {{ content: "Page " counter(page) " of " counter(pages); font: 7pt {_FONT} }} }}
@media print {{ .foot {{ display: none }} }}
"""

_SCREEN = """
@media screen { body { font-size: 12pt; line-height: 1.3; max-width: 72rem; padding: 0.5rem }
input[type=checkbox] { width: 1rem; height: 1rem } .card td svg { height: 3.2rem; width: auto; max-width: 100% }
.card th svg { height: 3.6rem; width: auto } input[type=text] { height: 1.7rem }
td input[type=text], td.one input[type=text] { width: 100%; max-width: 8rem } dd input[type=text] { width: 5rem }
.foot { margin-top: 1rem; font-size: 0.8em } th, td { padding: 0.3rem } }
@media screen and (max-width: 52rem) {
.head.one, .head.more, .held { grid-template-columns: 1fr } .head.plain .told, .head ul { columns: 1 }
.card table, .card tbody, .card tr, .card td, .card th { display: block; width: auto }
.card thead { position: absolute; left: -999rem } .card td:empty { display: none }
.card td[data-head]::before { content: attr(data-head) ": "; font-weight: bold }
.card tbody { border-bottom: 0.3mm solid black; padding: 0.4rem 0 } .card th, .card td { border: 0 }
.ticks td, .warned td { padding-left: 0.3rem } .card td svg { height: 4.5rem }
input[type=checkbox] { width: 1.4rem; height: 1.4rem }
.behind table { display: block; overflow-x: auto } svg { height: auto } }
"""


def style(size: float, left: float, foot: str) -> str:
    """The whole style sheet.

    size: the letters on paper [pt]
    left: how wide the drawing of a single part is [mm]
    foot: what stands under every page, as the inside of a string of CSS
    """
    paper = _PAPER.replace("FOOT", foot)
    return _EVERYWHERE.replace("SIZE", str(size)).replace("LEFT", str(left)) + paper + _SCREEN
