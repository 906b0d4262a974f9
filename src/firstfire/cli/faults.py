"""``firstfire faults``: what may be wrong with an engine when it is started."""

from __future__ import annotations


def faults_told(*, as_json: bool) -> str:
    """Every fault that a start can be given, as text or JSON."""
    from firstfire.runs.start.faults.all import FAULTS, listed

    if as_json:
        from firstfire.verdict.start.contract import FaultsTold, FaultTold

        return FaultsTold(faults=FaultTold.each_of(FAULTS)).model_dump_json(by_alias=True, indent=2)
    from firstfire.cli.terminal import columns
    from firstfire.verdict.words.text.lines import beside

    lines = []
    for name, words in listed():
        lines += beside(name, words, 26, width=columns())
    lines += ["", "Try one: firstfire start FILE --fault spark_early='20 deg'"]
    return "\n".join(lines)
