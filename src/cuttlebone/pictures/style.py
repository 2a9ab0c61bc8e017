"""Colours and strokes of the pictures, for light and dark; a page that shows pictures carries it once."""

STYLE = """
:root{--cb-paper:#fffdf7;--cb-ink:#1d2b2f;--cb-soft:#4f5f64;--cb-line:#6d7d82;--cb-faint:#d9dfdc;--cb-wall:#3b4a4f;
--cb-glass:#1f6f9c;--cb-air:#eef4f1;--cb-wood:#7a5230;--cb-bird:#2c5f56;--cb-water:#2a6f9e;--cb-seed:#86641a;--cb-leaf:#3c7536;
--cb-chalk:#6b6675;--cb-sun:#e0a100;--cb-go:#0f6a5b;--cb-act:#a3161d;--cb-mend:#8a4700;--cb-better:#1d5b8f;
--cb-tell:#5b4a86;--cb-fine:#2c6a35;--cb-on:#ffffff}
@media (prefers-color-scheme:dark){:root{--cb-paper:#182022;--cb-ink:#edf2ef;--cb-soft:#b4c1c3;--cb-line:#8b9ba0;
--cb-faint:#38454a;--cb-wall:#b9c5c8;--cb-glass:#7cc3ec;--cb-air:#202c2e;--cb-wood:#d1a479;--cb-bird:#7fc9b8;--cb-water:#7cc0ea;
--cb-seed:#dfbb6a;--cb-leaf:#93cf8b;--cb-chalk:#c4bfd0;--cb-sun:#f4c542;--cb-go:#63d2ba;--cb-act:#ff9a94;
--cb-mend:#f6b26b;--cb-better:#8cc8f5;--cb-tell:#c8b8f2;--cb-fine:#93d39b;--cb-on:#12191b}}
.cb-drawing{display:block;width:100%;height:auto;font-family:system-ui,-apple-system,"Segoe UI",sans-serif;font-size:12px;
background:var(--cb-paper)}
.cb-text{fill:var(--cb-ink);font-size:12px}.cb-soft{fill:var(--cb-soft)}.cb-strong{font-weight:650}
.cb-thin{stroke:var(--cb-line);stroke-width:1;fill:none}.cb-hair{stroke:var(--cb-line);stroke-width:.7;fill:none}
.cb-dash{stroke:var(--cb-line);stroke-width:1;stroke-dasharray:4 3;fill:none}
.cb-empty{fill:var(--cb-air);stroke:var(--cb-line);stroke-width:1.2;stroke-dasharray:5 4}
.cb-inset{fill:none;stroke:var(--cb-faint);stroke-width:1}
.cb-cage{fill:var(--cb-air);stroke:var(--cb-ink);stroke-width:1.8;stroke-linejoin:round}
.cb-solid{fill:none;stroke:var(--cb-wall);stroke-width:5;stroke-linecap:square}
.cb-door{fill:none;stroke:var(--cb-line);stroke-width:1.2;stroke-dasharray:5 2}
.cb-knob{fill:var(--cb-line)}
.cb-perch{fill:var(--cb-wood);stroke:var(--cb-wood);stroke-width:.4}
.cb-halo{fill:none;stroke:var(--cb-wood);stroke-width:1}.cb-halo-unknown{fill:none;stroke:var(--cb-wood);stroke-width:1;stroke-dasharray:2 2}
.cb-bird{fill:var(--cb-bird)}.cb-eye{fill:var(--cb-paper)}.cb-head{fill:var(--cb-bird)}.cb-bill{fill:var(--cb-seed)}
.cb-bar{fill:var(--cb-wall)}
.cb-dish{fill:var(--cb-paper);stroke-width:1.6;stroke-linejoin:round}
.cb-dish-water,.cb-dish-bath{stroke:var(--cb-water);fill:var(--cb-water);fill-opacity:.25}
.cb-dish-seed,.cb-dish-pellets{stroke:var(--cb-seed);fill:var(--cb-seed);fill-opacity:.3}
.cb-dish-greens{stroke:var(--cb-leaf);fill:var(--cb-leaf);fill-opacity:.3}
.cb-dish-wet-food{stroke:var(--cb-mend);fill:var(--cb-mend);fill-opacity:.2}
.cb-dish-calcium,.cb-dish-grit{stroke:var(--cb-chalk);fill:var(--cb-chalk);fill-opacity:.3}
.cb-measure{stroke:var(--cb-soft);stroke-width:1;fill:none}.cb-measure-head{fill:var(--cb-soft)}
.cb-go{stroke:var(--cb-go);stroke-width:1.6;stroke-dasharray:6 3;fill:none}.cb-go-head{fill:var(--cb-go)}.cb-go-text{fill:var(--cb-go);font-weight:650;font-size:12px}
.cb-person{stroke:var(--cb-soft);stroke-width:3.4;stroke-linecap:round;stroke-linejoin:round;fill:none}.cb-person-head{fill:var(--cb-soft)}
.cb-floor{stroke:var(--cb-ink);stroke-width:1.6}.cb-waist{stroke:var(--cb-better);stroke-width:1.2;stroke-dasharray:3 2}
.cb-room{fill:var(--cb-air)}.cb-wall{stroke:var(--cb-wall);stroke-width:6;stroke-linecap:square}
.cb-gap{stroke:var(--cb-paper);stroke-width:7}.cb-window{stroke:var(--cb-glass);stroke-width:1.8;fill:var(--cb-paper)}
.cb-leafdoor{stroke:var(--cb-line);stroke-width:1.3;fill:none}.cb-swing{stroke:var(--cb-line);stroke-width:1;stroke-dasharray:3 2;fill:none}
.cb-stand{fill:var(--cb-paper);stroke:var(--cb-ink);stroke-width:1.4}.cb-front{stroke:var(--cb-ink);stroke-width:4}.cb-face{fill:var(--cb-ink)}
.cb-sun{fill:var(--cb-sun);fill-opacity:.32;stroke:var(--cb-sun);stroke-width:1.2}.cb-sun-2{stroke-dasharray:5 3}.cb-sun-3{stroke-dasharray:2 2}
.cb-icon{stroke:var(--cb-mend);stroke-width:1.5;fill:none;stroke-linecap:round;stroke-linejoin:round}.cb-icon-full{fill:var(--cb-mend)}
.cb-spot{fill:var(--cb-paper);stroke:var(--cb-mend);stroke-width:1.2}
.cb-tag{fill:var(--cb-paper);stroke:var(--cb-soft);stroke-width:1}.cb-tag-text{fill:var(--cb-ink);font-size:11.5px;font-weight:600}
.cb-north{fill:var(--cb-ink)}
.cb-mark{stroke:var(--cb-paper);stroke-width:1}.cb-mark-text{fill:var(--cb-on);font-size:11.5px;font-weight:700}
.cb-act-now{fill:var(--cb-act)}.cb-mend-soon{fill:var(--cb-mend)}.cb-better{fill:var(--cb-better)}.cb-cannot-tell{fill:var(--cb-tell)}.cb-fine{fill:var(--cb-fine)}
"""
"""Text of the style sheet; classes start with ``cb-``."""
