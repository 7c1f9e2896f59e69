/** One workbench over a copy of the samples for all tests that look at the extension: starting one takes most of the time of a run. */
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { projectFolder } from "./host/machine";
import { Rig } from "./rig";

/** Notes beside the samples, for tests that change them. The box that opens files by name finds only what was there at the start. */
const NOTES: Readonly<Record<string, string>> = {
  "typing.calcs.md": "# Typing\n\n    a = 2 V\n    b = 3 * a\n    c = 5 * b\n",
  "enter.calcs.md": "# Enter\n\n    a = 2 V\n",
  "crlf.calcs.md": "# CRLF\r\n\r\n    a = 2 V\r\n    b = 3 * a\r\n",
  "used.calcs.md": "    a = 2 V\n",
  "user.calcs.md": '    use "used.calcs.md" as used\n    b = 3 * used.a\n',
  "ranges.calcs.md": `# Seven in series

    given  supply = 24 V ± 5 %              from "adapter sheet, p. 2"
    given  I_led  = 20 mA
    assume V_f    = 2.8 .. 3.0 .. 3.2 V     # white, at 20 mA
    assume I_max  = 30 mA
    in_series = 7
    burden    = supply - in_series * V_f
    R_series  = burden / I_led   choose 150 Ω ± 1 % from E24
    I_string  = burden / R_series
    should I_string <= I_max
    should I_string >= 1 mA
`,
  "trials.calcs.md": `# At every temperature and load

    assume x = 0 .. 1 V
    assume y = 0 .. 1 V
    over   a = 0 .. 0.1 V
    over   b = 0 .. 0.1 V
    must x + y + a + b <= 2 V in 90 % of builds
`,
  "handbook.calcs.md": "# Handbook\n\n    R = led.series_resistor(24 V, 7, 3 V, 20 mA)\n    x = 2\n",
  "table.calcs.md": `# Table

    boards = 8
    cost = sum(parts.total)
    must parts.current <= 60 mA

| parts: | qty | current [mA] | price | total = qty * price |
| --- | --: | --: | --: | --: |
| bar | = boards | 40 | 2.10 EUR | |
| fan | 1 | 180 ± 10 % | 6 EUR | |
| relay | 2 | 75 | 1.40 EUR | |
| "M3×8" | 32 | 0 | 0.05 EUR | |
`,
  "price.calcs.md": `# Price\n\n    use "price.csv" as price\n    all = sum(price.each)\n`,
  "price.csv": "part,each\nbar,2 EUR\n",
  "completion.calcs.md": "# Completion\n\nSome prose.\n\n    supply_voltage = 5 V\n    b = \n",
};

let started: Promise<Rig> | undefined;

export function samplesRig(): Promise<Rig> {
  return (started ??= start());
}

after(async () => (await started)?.close());

async function start(): Promise<Rig> {
  const home = mkdtempSync(join(tmpdir(), "copperbook-notes-"));
  try {
    const folder = join(home, "notes");
    cpSync(join(projectFolder, "samples"), folder, { recursive: true });
    for (const [path, text] of Object.entries(NOTES)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    const rig = await Rig.start({ folder });
    await rig.press("Control+B"); // The side bar leaves; lines with their values need the width.
    return rig;
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
}
