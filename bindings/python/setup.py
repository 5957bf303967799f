"""One wheel for every Python: the library is loaded, not linked, so only the platform counts."""

import os

from setuptools import Distribution, setup
from setuptools.command.bdist_wheel import bdist_wheel


class WithLibrary(Distribution):
    def has_ext_modules(self):
        return True


class Wheel(bdist_wheel):
    def get_tag(self):
        return "py3", "none", os.environ["LASHWORK_WHEEL_PLATFORM"]


setup(version=os.environ["LASHWORK_VERSION"], distclass=WithLibrary, cmdclass={"bdist_wheel": Wheel})
