//! Which cylinder each lead really goes to, and whether the distributor is in by the right tooth.
