//! One ignition point said every way: crank and distributor degrees, rim, piston travel, rotor.
