"""What takes the place of a law in the tests of runs."""


def told(monkeypatch, where, name, answer):
    """A law that answers as it is told; the list of what it is asked."""
    asked = []

    def law(*given, **named):
        asked.append((*given, *named.values()))
        return answer(*given, **named) if callable(answer) else answer

    monkeypatch.setattr(where, name, law)
    return asked
