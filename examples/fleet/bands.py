"""What the examples judge by. Invented: the limits of an engine stand in its maker's manual."""

import lashwork as lw

BANDS = {"intake": lw.limits("0.15 mm", "0.20 mm"), "exhaust": lw.limits("0.25 mm", "0.30 mm")}
RULE = lw.GUARDED_TIGHT
