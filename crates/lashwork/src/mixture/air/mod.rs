//! How dense the air is, from what a barometer, a thermometer and a hygrometer show.
