"""Every family of threads as it is listed. Generated: `python -m engine.threads.family` writes it anew."""

# fmt: off
ROWS: tuple[tuple[str, str, str, str, str, tuple[tuple[str, str], ...]], ...] = (
    ('metric', 'ISO metric', 'iso_metric', 'M', 'x', ()),
    ('unified', 'Unified', 'unified', '', '-x', (('unified', 'un\\s?r?\\s?(?:ef|c|f|s)?'),)),
    ('whitworth', 'British Standard Whitworth', 'whitworth', '', '', (('bsw', 'b\\.?s\\.?w\\.?'), ('bsf', 'b\\.?s\\.?f\\.?'), ('whit', 'whit(?:worth)?\\.?(?:\\s?s(?:pecial)?\\.?(?![a-z]))?'))),
    ('ba', 'British Association', 'british_association', '', '', (('ba', 'b\\.?a\\.?'),)),
    ('me', 'model engineer', 'model_engineer', '', '', (('me', 'm\\.?e\\.? | model\\s?engineer'),)),
    ('brass', 'brass', 'brass', '', '', (('brass', 'b\\.?s\\.?b(?:rass)?\\.? | brass'),)),
    ('cycle', 'British Standard Cycle', 'cycle', '', '', (('cycle', 'b\\.?s\\.?c(?:y(?:cle)?)?\\.? | c\\.?e\\.?i\\.? | cycle'),)),
    ('g', 'parallel pipe (G)', 'pipe_parallel', '', '', (('g', 'g'), ('bsp', 'b\\.?s\\.?p(?!\\.?\\s?t)\\.?\\s?p?(?:\\.|l)?'))),
    ('r', 'taper pipe (R)', 'pipe_taper', '', '', (('r', 'r[pc]?'), ('bspt', 'b\\.?s\\.?p\\.?\\s?t(?:r)?\\.?'))),
    ('npt', 'American taper pipe', 'american_taper_pipe', '', '', (('npt', 'n\\.?p\\.?t\\.?'),)),
    ('tr', 'ISO trapezoidal', 'trapezoidal', 'Tr', '', ()),
    ('acme', 'Acme', 'acme', '', '', (('acme', 'acme'),)),
    ('stub', 'stub Acme', 'stub_acme', '', '', (('stub', 'stub\\s*acme'),)),
    ('square', 'square', 'square', 'Sq', '', (('square', 'square'),)),
    ('miniature', 'miniature', 'miniature', 'S', '', (('unm', 'unm'),)),
    ('gas', 'gas cylinder', 'gas_cylinder', 'W', '', ()),
)
