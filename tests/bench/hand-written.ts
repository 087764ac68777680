// The rules of road-panels.bevel in this folder written by hand in TypeScript, as one would without the
// language: plain numbers in mm, g, mL, g/m2, minutes and °C, strings for words, every answer given. The
// bench holds its values against the engine's before it times either. It knows no unknown answers, no reasons
// and no trace: that is what it is spared.

export interface Answers {
  use: "body" | "sensor" | "load-bearing" | "crash" | "anchor" | "pressure" | "aircraft";
  edge: "glass-fibre" | "black-fibre" | "bright" | "no-fibre" | "cannot-tell";
  back: "smooth" | "rough";
  strands: "chopped" | "layered";
  damage: "surface" | "through";
  longestSide: number;
  shortestSide: number;
  thickness: number;
  depth: number;
  toEdge: number;
  flexes: boolean;
  backOpen: boolean;
  air: number;
  panel: number;
  humidity: number;
}

export const dials = {
  coldest: 15,
  hottest: 32,
  wettest: 0.8,
  dewMargin: 3,
  houseTaper: 10,
  flexTaper: 12,
  smallDamage: 25,
  largeDamage: 76.2,
  fillerLimit: 150,
  largestRepair: 400,
  matWeight: 450,
  clothWeight: (10 * 28.349523125) / 0.83612736,
  matGlass: 0.3,
  clothGlass: 0.5,
  waste: 0.1,
  largestCup: 500,
  laidPace: 25,
  smallestCup: 50,
  lotThickness: 5,
  patchOverlap: 50.8,
  patchFactor: 1.15,
  peroxideDensity: 1.1,
  fillerDensity: 1.7,
  puddleAcross: 100,
  puddleThick: 10,
  creamDensity: 1.15,
  beadAcross: 5,
  flashOff: 10,
  adhesiveCure: 120,
  fullCure: 1440,
  roughGrit: 40,
  bevelGrit: 80,
  shapeGrit: 150,
  primerGrit: 240,
  patchAdhesive: "urethane-adhesive" as "urethane-adhesive" | "epoxy-adhesive",
  paintBorder: 50,
};

const up = (x: number, step: number): number => Math.ceil(x / step - 1e-9) * step;
const near = (x: number, step: number): number => Math.floor(x / step + 0.5 + 1e-9) * step;

/** Straight between the points; undefined beyond them. */
function straight(xs: readonly number[], ys: readonly number[], x: number): number | undefined {
  if (x < xs[0]! || x > xs[xs.length - 1]!) return undefined;
  let i = 0;
  while (i < xs.length - 2 && x > xs[i + 1]!) i++;
  return ys[i]! + ((ys[i + 1]! - ys[i]!) * (x - xs[i]!)) / (xs[i + 1]! - xs[i]!);
}

const DOSE_AT = [15, 20, 25, 30, 35];
const PEROXIDE = [0.02, 0.015, 0.0125, 0.01, 0.01];
const CREAM = [0.025, 0.02, 0.0175, 0.015, 0.015];
const PACE_AT = [15, 20, 25, 35];
const RESIN_PACE = {
  polyester: { working: [30, 25, 20, 10], cure: [240, 150, 120, 60] },
  epoxy: { working: [60, 45, 30, 15], cure: [1440, 960, 720, 360] },
};
const FILLER_PACE = {
  polyester: { working: [10, 7, 5, 3], cure: [45, 30, 20, 15] },
  epoxy: { working: [40, 30, 20, 10], cure: [360, 240, 180, 90] },
};

type Skin = "smc" | "closed-mould" | "hand-laid" | "carbon" | "metal" | "other";

function skinOf(a: Answers): Skin | undefined {
  switch (a.edge) {
    case "black-fibre":
      return "carbon";
    case "bright":
      return "metal";
    case "no-fibre":
    case "cannot-tell":
      return "other";
    case "glass-fibre":
      if (a.strands === "chopped") return a.back === "smooth" ? "smc" : undefined;
      return a.back === "smooth" ? "closed-mould" : "hand-laid";
  }
}

type Method = "milled-filler" | "short-filler" | "long-filler" | "layup" | "refer";

function methodOf(skin: Skin, damage: Answers["damage"], long: number): Method {
  if (skin === "carbon" || skin === "metal" || skin === "other") return "refer";
  if (long < dials.smallDamage) return damage === "surface" ? "milled-filler" : "short-filler";
  if (damage === "through") return skin === "hand-laid" && long < dials.largeDamage ? "long-filler" : "layup";
  if (long < dials.largeDamage) return "short-filler";
  return skin === "hand-laid" && long < dials.fillerLimit ? "long-filler" : "layup";
}

const dish = (a: number, b: number, deep: number, wide: number): number =>
  (Math.PI / 4) * a * b * deep + (Math.PI / 4) * (a + b) * wide * deep + (Math.PI / 3) * wide * wide * deep;
const oval = (a: number, b: number): number => (Math.PI / 4) * a * b;
const GLASS_DENSITY = 2.56;
const LIGHT_MAT = (1.5 * 28.349523125) / 0.09290304;
const HEAVY_MAT = (2 * 28.349523125) / 0.09290304;
const resinFor = (weight: number, part: number): number => weight * (1 / part - 1);
/** g/m2 over g/mL is µm, a thousandth of a millimetre. */
const thickOf = (weight: number, part: number, cured: number): number =>
  (weight / GLASS_DENSITY + resinFor(weight, part) / cured) / 1000;

/** Undefined where the key has no panel for the answers, or the air is off the charts. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the rival is the rules as one plain function.
export function work(a: Answers) {
  const skin = skinOf(a);
  const peroxide = straight(DOSE_AT, PEROXIDE, a.air);
  const cream = straight(DOSE_AT, CREAM, a.air);
  if (skin === undefined || peroxide === undefined || cream === undefined) return undefined;
  const resinType = skin === "smc" ? "epoxy" : "polyester";
  const polyester = resinType === "polyester";

  const damp = Math.log(a.humidity) + (17.62 * a.air) / (243.12 + a.air);
  const dewPoint = (243.12 * damp) / (17.62 - damp);

  const bevelTaper = a.flexes ? dials.flexTaper : dials.houseTaper;
  const cutDepth = a.damage === "through" ? a.thickness : Math.min(a.depth, a.thickness);
  const runOut = cutDepth * bevelTaper;
  const bevelWidth = up(runOut, 5);
  const holeShort = Math.min(a.shortestSide, a.longestSide);
  const bevelLong = a.longestSide + 2 * bevelWidth;
  const bevelShort = holeShort + 2 * bevelWidth;
  const refill = dish(a.longestSide, holeShort, cutDepth, bevelWidth) / 1000;

  const method = methodOf(skin, a.damage, a.longestSide);
  const fills = method === "milled-filler" || method === "short-filler" || method === "long-filler";
  const lays = method === "layup";
  const patched = a.damage === "through";
  const roomNeeded = patched ? Math.max(bevelWidth, dials.patchOverlap) : bevelWidth;

  const glassWeight = polyester ? dials.matWeight : dials.clothWeight;
  const glassPart = polyester ? dials.matGlass : dials.clothGlass;
  const resinDensity = polyester ? 1.2 : 1.15;
  const resinPerArea = resinFor(glassWeight, glassPart);
  const plyThickness = thickOf(glassWeight, glassPart, resinDensity);

  const heavyMatThickness = thickOf(HEAVY_MAT, glassPart, resinDensity);
  const clothLayers = polyester ? 0 : up((a.thickness * dials.patchFactor) / plyThickness, 1);
  const backing =
    a.thickness <= 2.8
      ? { light: 3, heavy: 0 }
      : a.thickness <= 3
        ? { light: 2, heavy: 1 }
        : a.thickness <= 3.3
          ? { light: 1, heavy: 2 }
          : a.thickness <= 3.6
            ? { light: 0, heavy: 3 }
            : a.thickness <= 4.3
              ? { light: 2, heavy: 2 }
              : { light: 0, heavy: up((a.thickness * dials.patchFactor) / heavyMatThickness, 1) };
  const patchWeight = polyester
    ? backing.light * LIGHT_MAT + backing.heavy * HEAVY_MAT
    : clothLayers * dials.clothWeight;
  const patchThickness = thickOf(patchWeight, glassPart, resinDensity);
  const patchLong = a.longestSide + 2 * dials.patchOverlap;
  const patchShort = holeShort + 2 * dials.patchOverlap;
  const patchGlass = patched ? (patchLong * patchShort * patchWeight) / 1e6 : 0;
  const patchResin = patchGlass * (1 / glassPart - 1);
  const patchBatch = up(patchResin * (1 + dials.waste), 10);
  const patchLots = up(patchThickness / dials.lotThickness, 1);
  const resinWorking = straight(PACE_AT, RESIN_PACE[resinType].working, a.air)!;
  const usableCup = Math.min(dials.largestCup, Math.floor((dials.laidPace * resinWorking) / 5 + 1e-9) * 5);
  const patchCups = Math.max(up(patchBatch / usableCup, 1), patchLots);
  const patchCup = patched ? Math.max(dials.smallestCup, up(patchBatch / patchCups, 5)) : 0;

  const plyCount = lays ? up(cutDepth / plyThickness, 1) : 0;
  const plyStep = bevelWidth / Math.max(1, plyCount);
  const plies: { length: number; width: number; glass: number; resin: number }[] = [];
  let glassNeeded = 0;
  let resinNeeded = 0;
  for (let n = 1; n <= plyCount; n++) {
    const length = a.longestSide + 2 * n * plyStep;
    const width = holeShort + 2 * n * plyStep;
    const area = oval(length, width) / 1e6;
    const ply = { length, width, glass: area * glassWeight, resin: area * resinPerArea };
    glassNeeded += ply.glass;
    resinNeeded += ply.resin;
    plies.push(ply);
  }
  const stepOut = near(plyStep, 1);
  const smallestPly = plyCount > 0 ? up(plies[0]!.length, 1) : undefined;
  const largestPly = plyCount > 0 ? up(plies[plyCount - 1]!.length, 1) : undefined;
  const resinBatch = up(resinNeeded * (1 + dials.waste), 10);
  const lots = up((plyCount * plyThickness) / dials.lotThickness, 1);
  const cups = Math.max(1, up(resinBatch / usableCup, 1), lots);
  const cupResin = lays ? Math.max(dials.smallestCup, up(resinBatch / cups, 5)) : 0;

  const dose = peroxide * 100;
  const doseVolume = near(dose / dials.peroxideDensity, 0.01);
  const cupPeroxide = near(peroxide * cupResin, 0.1);
  const cupPeroxideVolume = near(cupPeroxide / dials.peroxideDensity, 0.1);
  const patchPeroxide = near(peroxide * patchCup, 0.1);
  const patchPeroxideVolume = near(patchPeroxide / dials.peroxideDensity, 0.1);
  const cupBase = cupResin / (1 + 1 / 4);
  const cupHardener = cupBase / 4;
  const patchBase = patchCup / (1 + 1 / 4);
  const patchHardener = patchBase / 4;

  const fillerVolume = fills ? up(refill * (1 + dials.waste), 5) : 0;
  const fillerNeeded = up(fillerVolume * dials.fillerDensity, 10);
  const creamNeeded = near(cream * fillerNeeded, 0.1);
  const puddle =
    ((Math.PI / 4) * dials.puddleAcross * dials.puddleAcross * dials.puddleThick * dials.fillerDensity) /
    1000;
  const puddles = up(fillerNeeded / puddle, 1);
  const puddleCream = cream * puddle;
  const bead = near(
    (puddleCream / dials.creamDensity / ((Math.PI / 4) * dials.beadAcross * dials.beadAcross)) * 1000,
    5,
  );
  const fillerBase = fillerVolume / 2;
  const fillerHardener = fillerBase;

  const resinCure = straight(PACE_AT, RESIN_PACE[resinType].cure, a.air)!;
  const fillerWorking = straight(PACE_AT, FILLER_PACE[resinType].working, a.air)!;
  const fillerCure = straight(PACE_AT, FILLER_PACE[resinType].cure, a.air)!;
  const firstGrit = cutDepth >= 1.5 ? dials.roughGrit : dials.bevelGrit;

  const patchWet = patched && polyester;
  const patchDry = patched && !polyester;
  const steps = {
    tag: true,
    wash: true,
    degrease: true,
    bare: true,
    cut: true,
    mark: true,
    bevel: true,
    "scuff-back": patched && a.backOpen,
    "dust-off": true,
    "mix-patch": patchWet,
    "lay-patch": patchWet && a.backOpen,
    "pull-patch": patchWet && !a.backOpen,
    "mix-patch-epoxy": patchDry,
    "make-patch": patchDry,
    "bond-patch": patchDry,
    "clean-patch": patched,
    "mix-filler": fills && polyester,
    "mix-epoxy-filler": fills && !polyester,
    fill: fills,
    "cut-plies": lays,
    "mix-cup": lays && polyester,
    "mix-cup-epoxy": lays && !polyester,
    "lay-up": lays,
    level: true,
    skim: true,
    look: true,
    sheet: true,
  };
  const takes = {
    bevel: 15 + 5 * cutDepth,
    "cut-plies": 10 + 2 * plyCount,
    "mix-cup": 5 * cups,
    "mix-cup-epoxy": 5 * cups,
    "lay-up": 10 + 6 * plyCount,
  };
  const waits = {
    "lay-patch": resinCure,
    "pull-patch": resinCure,
    "make-patch": resinCure,
    fill: fillerCure,
    "lay-up": resinCure,
  };
  const peroxideUsed = steps["mix-patch"] || steps["mix-filler"] || steps["mix-cup"];
  const cautions = {
    "label-first": true,
    dust: true,
    solvent: true,
    splash: peroxideUsed,
    promoter: steps["mix-patch"] || steps["mix-cup"],
    "peroxide-waste": peroxideUsed,
    styrene: polyester && (peroxideUsed || steps["lay-patch"] || steps["pull-patch"] || steps["lay-up"]),
    "epoxy-skin":
      steps["mix-patch-epoxy"] || steps["make-patch"] || steps["mix-epoxy-filler"] || steps["mix-cup-epoxy"],
    isocyanate: patchDry && dials.patchAdhesive === "urethane-adhesive",
    "hot-mass": steps["mix-patch"] || steps["mix-patch-epoxy"] || steps["mix-cup"] || steps["mix-cup-epoxy"],
  };
  const stops = {
    "load-bearing-part": a.use === "load-bearing",
    "crash-part": a.use === "crash",
    "anchor-part": a.use === "anchor",
    "sensor-part": a.use === "sensor",
    "pressure-part": a.use === "pressure",
    "aircraft-part": a.use === "aircraft",
    "carbon-part": a.edge === "black-fibre",
    "metal-part": a.edge === "bright",
    "unknown-part": a.edge === "no-fibre" || a.edge === "cannot-tell",
    clash: a.back === "rough" && a.strands === "chopped",
    "too-cold": Math.min(a.air, a.panel) < dials.coldest,
    "too-hot": Math.max(a.air, a.panel) > dials.hottest,
    dew: a.panel - dewPoint < dials.dewMargin,
    humid: a.humidity >= dials.wettest,
    "no-room": roomNeeded > a.toEdge,
    "no-reach": patched && !a.backOpen && a.longestSide >= dials.largeDamage,
    "too-large": a.longestSide > dials.largestRepair,
  };
  let stopped = false;
  for (const name in stops) if (stops[name as keyof typeof stops]) stopped = true;
  const promises = [
    (peroxide >= 0.01 && peroxide <= 0.02) || stopped,
    (cream >= 0.01 && cream <= 0.03) || stopped,
    skin !== "smc" || !polyester,
    roomNeeded <= a.toEdge || stopped,
    !patched || patchThickness >= a.thickness,
    !lays || plyCount * plyThickness >= cutDepth - 1e-9,
    cupResin <= dials.largestCup && patchCup <= dials.largestCup,
    dials.flexTaper >= dials.houseTaper,
    dials.bevelGrit <= 2 * dials.roughGrit &&
      dials.shapeGrit <= 2 * dials.bevelGrit &&
      dials.primerGrit <= 2 * dials.shapeGrit,
  ];
  return {
    figures: {
      skin,
      "resin-type": resinType,
      "air-number": a.air,
      damp,
      "dew-point": dewPoint,
      "bevel-taper": bevelTaper,
      "cut-depth": cutDepth,
      "run-out": runOut,
      "bevel-width": bevelWidth,
      "hole-short": holeShort,
      "bevel-long": bevelLong,
      "bevel-short": bevelShort,
      refill,
      method,
      fills,
      lays,
      patched,
      "room-needed": roomNeeded,
      "glass-weight": glassWeight,
      "glass-share": glassPart,
      "glass-part": glassPart,
      "glass-density": GLASS_DENSITY,
      "resin-density": resinDensity,
      "resin-per-area": resinPerArea,
      "ply-thickness": plyThickness,
      "light-mat": LIGHT_MAT,
      "heavy-mat": HEAVY_MAT,
      "heavy-mat-thickness": heavyMatThickness,
      "cloth-layers": clothLayers,
      "backing.light": backing.light,
      "backing.heavy": backing.heavy,
      "patch-weight": patchWeight,
      "patch-thickness": patchThickness,
      "patch-long": patchLong,
      "patch-short": patchShort,
      "patch-glass": patchGlass,
      "patch-resin": patchResin,
      "patch-batch": patchBatch,
      "patch-lots": patchLots,
      "usable-cup": usableCup,
      "patch-cups": patchCups,
      "patch-cup": patchCup,
      "ply-count": plyCount,
      "ply-step": plyStep,
      "step-out": stepOut,
      "smallest-ply": smallestPly,
      "largest-ply": largestPly,
      "glass-needed": glassNeeded,
      "resin-needed": resinNeeded,
      "resin-batch": resinBatch,
      lots,
      cups,
      "cup-resin": cupResin,
      peroxide,
      cream,
      "dose-for": 100,
      dose,
      "dose-volume": doseVolume,
      "cup-peroxide": cupPeroxide,
      "cup-peroxide-volume": cupPeroxideVolume,
      "patch-peroxide": patchPeroxide,
      "patch-peroxide-volume": patchPeroxideVolume,
      "epoxy-mix": 1 / 4,
      "cup-base": cupBase,
      "cup-hardener": cupHardener,
      "patch-base": patchBase,
      "patch-hardener": patchHardener,
      "filler-volume": fillerVolume,
      "filler-needed": fillerNeeded,
      "cream-needed": creamNeeded,
      puddle,
      puddles,
      "puddle-cream": puddleCream,
      bead,
      "filler-mix": 1,
      "filler-base": fillerBase,
      "filler-hardener": fillerHardener,
      "resin-pace.working": resinWorking,
      "resin-pace.cure": resinCure,
      "filler-pace.working": fillerWorking,
      "filler-pace.cure": fillerCure,
      "first-grit": firstGrit,
    },
    plies,
    steps,
    takes,
    waits,
    cautions,
    stops,
    stopped,
    promises,
  };
}
