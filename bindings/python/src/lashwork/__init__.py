"""The computation kernel for the service of older piston engines, from Python.

    import lashwork as lw
    lw.length("0.006 in").mm                       # 0.1524
    lw.judge(lw.between("0.12 mm", "0.15 mm"), lw.limits("0.15 mm", "0.20 mm"), lw.GUARDED_TIGHT)
    lw.report(document).sheet                      # a whole job, of a dict or of JSON

A refused value raises LashworkError with the kernel's code, message, place and hint. Columns of numpy and of Arrow are
taken as they are, without a copy; lists work too. `lashwork.arrow` judges record batches, `lashwork.plot` draws.
"""

from ._columns import Columns as Columns, Numbers as Numbers, Stated as Stated
from ._library import LashworkError as LashworkError, library as _library, version as version
from ._structure import check_layouts as _check_layouts
from .adjust import *
from .air import *
from .bolts import *
from .breaker import *
from .compression import *
from .crank import *
from .document import *
from .drift import *
from .engine import *
from .events import *
from .gas import *
from .idle import *
from .ignition_point import *
from .judging import *
from .leak import *
from .quantity import *
from .strobe import *
from .throttles import *

__version__ = version
_check_layouts(_library)
