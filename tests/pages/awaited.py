"""What is awaited, to its end, in a thread of its own: a browser leaves its loop in the first."""

import asyncio
from concurrent.futures import ThreadPoolExecutor


def awaited(coroutine):
    with ThreadPoolExecutor(1) as other:
        return other.submit(asyncio.run, coroutine).result()
