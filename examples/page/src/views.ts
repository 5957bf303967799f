// All that comes after the first view, as one file of the build: what is alike in two parts weighs least there.

export { Against as against } from "./against";
export { CausesView as causes } from "./causes/view";
export { ChartsView as charts } from "./charts";
export { ConditionView as condition } from "./condition/view";
export { FiguresView as figures } from "./figures/view";
export { HistoryView as history } from "./history/view";
export { IgnitionView as ignition } from "./ignition/view";
export { JobView as job } from "./job";
export { MixtureView as mixture } from "./mixture/view";
export { ServiceView as service } from "./service/view";
export { SettingsView as settings } from "./settings";

export { figuresReady } from "./figures/ask";
export { bringFor, lacksFor, wholeReady } from "./whole";
