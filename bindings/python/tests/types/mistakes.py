"""What a checker must refuse before it runs, each line by the kind of mistake at its end."""

import lashwork as lw

lw.limits(0.15, "0.20 mm")  # arg-type
lw.length(0.15)  # arg-type
lw.Limits(1, 0, 150_000, 200_000)  # call-arg
lw.Limits(1, 150_000)  # call-arg
lw.Limits(1, "0.15 mm", "0.20 mm")  # arg-type
lw.judge(lw.limits("0.15 mm", None), lw.limits("0.15 mm", None), lw.SIMPLE)  # arg-type
lw.judge(lw.between("0.12 mm", "0.15 mm"), lw.limits("0.15 mm", None), 2)  # arg-type
lw.between("0.12 mm", "0.15 mm").low_inch  # attr-defined
lw.Engine([1, 2]).plan(None, lw.FEWEST_STOPS)  # arg-type
lw.Engine([1, 2]).plan(lw.ValveTrain(10, 40, 40, 10, 20, 1, 1, 1), lw.FEWEST_STOPS).stops  # union-attr
lw.no_such_call()  # attr-defined
