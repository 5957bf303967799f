"""Work that is sent to the workers of a cluster. Nothing of this package is imported here but when the work is done, so
that a worker without the package can say so."""

from __future__ import annotations

import pickle
import platform
import sys
from typing import Any, Tuple

_PICKLERS = ("cloudpickle", "pyspark.cloudpickle", "ray.cloudpickle")


class Shipped:
    """`judge` or `drift` with all it needs beside the batches, to send to the workers of a cluster.

    A worker that has another lashwork than the one it was made with refuses to work: answers of two versions side by
    side would not be comparable. So does one without lashwork, and says what to do.
    """

    def __init__(self, name: str, version: str, given: bytes) -> None:
        self.__name__, self.version, self.given = name, version, given

    def __reduce__(self) -> Tuple[Any, ...]:
        # What clusters pickle with can send a class as a whole; else it would be looked for in the package.
        for name in _PICKLERS:
            if name in sys.modules:
                sys.modules[name].register_pickle_by_value(sys.modules[Shipped.__module__])
        return Shipped, (self.__name__, self.version, self.given)

    def __call__(self, batches: Any) -> Any:
        worker = platform.node()
        try:
            from lashwork import arrow, version
        except ImportError as why:
            raise ImportError(
                f"{worker} cannot load lashwork: {why}; install lashwork {self.version} and pyarrow for the Python of every "
                "worker, or send the wheel as an archive (examples/fleet/README.md)") from why
        if self.version != version:
            raise ImportError(
                f"{worker} has lashwork {version}, this work is for lashwork {self.version}: "
                "install one version on all workers")
        arguments, named = pickle.loads(self.given)
        return getattr(arrow, self.__name__)(batches, *arguments, **named)
