import type { Priors } from '../learn/priors.ts';

/**
 * Rates of the field, estimated from the open data; see README.md beside this file. Senior and junior
 * internationals under the rules of 2016 to 2018: not calibrated for children, for three judges, or for
 * calls that did not exist then (`q`).
 */
// prettier-ignore
export const OPEN_DATA_PRIORS: Priors = {
  "source": "624 protocols of senior and junior internationals, seasons 2016/17 and 2017/18, nine judges (ISU Figure Skating Score Sheets as Structured Data, BuzzFeed News, CC BY 4.0)",
  "programs": 624,
  "first": {
  "single": {"ok":6,"q":0,"<":0,"<<":0,"pop":0,"pop2":0},
  "double": {"ok":5,"q":0,"<":0,"<<":0,"pop":1,"pop2":0},
  "2A": {"ok":208,"q":0,"<":6,"<<":2,"pop":7,"pop2":0},
  "triple": {"ok":517,"q":0,"<":38,"<<":3,"pop":26,"pop2":12},
  "3A": {"ok":134,"q":0,"<":8,"<<":1,"pop":2,"pop2":5},
  "quad": {"ok":99,"q":0,"<":14,"<<":2,"pop":5,"pop2":6},
},
  "second": {
  "single": {"ok":27,"q":0,"<":2,"<<":3,"less":0,"missing":4},
  "double": {"ok":104,"q":0,"<":5,"<<":1,"less":6,"missing":16},
  "2A": {"ok":7,"q":0,"<":1,"<<":0,"less":0,"missing":1},
  "triple": {"ok":102,"q":0,"<":33,"<<":2,"less":21,"missing":12},
  "3A": {"ok":0,"q":0,"<":0,"<<":0,"less":0,"missing":0},
  "quad": {"ok":0,"q":0,"<":0,"<<":0,"less":0,"missing":0},
},
  "edge": {
  "none": 350,
  "!": 28,
  "e": 7,
},
  "fall": {
  "single": {"fall":0,"stood":6},
  "double": {"fall":0,"stood":6},
  "2A": {"fall":5,"stood":218},
  "triple": {"fall":26,"stood":570},
  "3A": {"fall":11,"stood":139},
  "quad": {"fall":20,"stood":106},
},
  "jumpGrade": {
  "single": {"ok":{"n":6,"mean":0.0124,"sd":0.3743},"doubt":{"n":0,"mean":-0.05,"sd":0.3},"short":{"n":0,"mean":-0.45,"sd":0.3},"down":{"n":0,"mean":-0.7,"sd":0.2},"pop":{"n":0,"mean":-0.2,"sd":0.35},"fall":{"n":0,"mean":-0.97,"sd":0.06}},
  "double": {"ok":{"n":5,"mean":0.0402,"sd":0.2485},"doubt":{"n":0,"mean":-0.05,"sd":0.3},"short":{"n":0,"mean":-0.45,"sd":0.3},"down":{"n":0,"mean":-0.7,"sd":0.2},"pop":{"n":1,"mean":-0.2076,"sd":0.3134},"fall":{"n":0,"mean":-0.97,"sd":0.06}},
  "2A": {"ok":{"n":192,"mean":0.2276,"sd":0.3166},"doubt":{"n":0,"mean":-0.05,"sd":0.3},"short":{"n":18,"mean":-0.2788,"sd":0.2848},"down":{"n":1,"mean":-0.76,"sd":0.2154},"pop":{"n":5,"mean":-0.1471,"sd":0.2693},"fall":{"n":5,"mean":-0.9867,"sd":0.05}},
  "triple": {"ok":{"n":432,"mean":0.2141,"sd":0.3616},"doubt":{"n":21,"mean":-0.0728,"sd":0.2178},"short":{"n":74,"mean":-0.3882,"sd":0.2703},"down":{"n":5,"mean":-0.7608,"sd":0.188},"pop":{"n":35,"mean":-0.1084,"sd":0.2731},"fall":{"n":26,"mean":-0.996,"sd":0.05}},
  "3A": {"ok":{"n":119,"mean":0.2232,"sd":0.4196},"doubt":{"n":0,"mean":-0.05,"sd":0.3},"short":{"n":12,"mean":-0.4012,"sd":0.3656},"down":{"n":1,"mean":-0.6552,"sd":0.2},"pop":{"n":5,"mean":-0.0254,"sd":0.3353},"fall":{"n":11,"mean":-0.9888,"sd":0.05}},
  "quad": {"ok":{"n":86,"mean":0.213,"sd":0.4436},"doubt":{"n":0,"mean":-0.05,"sd":0.3},"short":{"n":9,"mean":-0.5927,"sd":0.3052},"down":{"n":0,"mean":-0.7,"sd":0.2},"pop":{"n":10,"mean":-0.0299,"sd":0.3695},"fall":{"n":20,"mean":-0.995,"sd":0.05}},
},
  "levels": {
  "combination spin": {"1":4,"2":40,"3":187,"4":533,"none":4,"B":0},
  "change-foot spin": {"1":2,"2":14,"3":94,"4":166,"none":7,"B":0},
  "flying spin": {"1":6,"2":31,"3":137,"4":365,"none":3,"B":1},
  "spin": {"1":1,"2":8,"3":50,"4":217,"none":1,"B":0},
  "steps": {"1":8,"2":107,"3":337,"4":171,"none":1,"B":0},
  "choreo": {"1":286,"2":0,"3":0,"4":0,"none":2,"B":0},
},
  "reduced": {
  "V": 44,
  "full": 724,
},
  "levelGrade": {
  "combination spin": {"n":764,"mean":0.3678,"sd":0.2377},
  "change-foot spin": {"n":276,"mean":0.291,"sd":0.2486},
  "flying spin": {"n":540,"mean":0.2808,"sd":0.2394},
  "spin": {"n":276,"mean":0.4389,"sd":0.2601},
  "steps": {"n":623,"mean":0.4306,"sd":0.2671},
  "choreo": {"n":286,"mean":0.412,"sd":0.2619},
},
  "skaterGradeSd": 0.2055,
  "components": {
  "senior men short": {"n":158,"mean":6.7891,"between":1.2655,"within":0.2593},
  "senior men free": {"n":144,"mean":7.1893,"between":1.0781,"within":0.2858},
  "senior women short": {"n":156,"mean":6.5716,"between":1.25,"within":0.2751},
  "senior women free": {"n":144,"mean":6.9588,"between":1.0306,"within":0.3583},
  "junior men short": {"n":6,"mean":7.0487,"between":0.4147,"within":0.3},
  "junior men free": {"n":6,"mean":7.175,"between":0.4413,"within":0.3},
  "junior women short": {"n":5,"mean":7.146,"between":0.2522,"within":0.3},
  "junior women free": {"n":5,"mean":7.3496,"between":0.4328,"within":0.3},
},
  "otherDeduction": {
  "some": 33,
  "none": 591,
},
  "form": {
  "day": 0.1,
  "level": 0.45,
},
};
