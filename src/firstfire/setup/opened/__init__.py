"""Numbers of cams and timing opened to their arithmetic, as a judgement is."""
