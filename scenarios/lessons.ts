/** Lessons by the id of their scenario, Markdown. Made from lessons/*.md by tests/support/write-lessons.ts. */
export const LESSONS: Readonly<Record<string, string>> = {
  'adult-baseline': `# A 65-year-old, full chamber

The eye to begin with. An old capsule is stiff and only a little stretched, so the tear goes nearly where the pull leads it. What you learn here about the flap holds in every other eye; what you learn about angles does not.

## What to do

1. Grasp the free corner of the flap a little behind the tip and just inside the torn edge.
2. Lay the flap over, so that its underside is up, and carry it ahead of the tip along the line.
3. Pull along the line, leaning about 35 degrees toward the centre. Let go and grasp again every one and a half clock hours.
4. Close the circle from outside: come in to the start from just outside of it, not from inside.

## What to watch

- The three arrows at the tip. The sheet alone would lead the tear outward, here only weakly.
- The bar of driving force over resistance: the tear goes when it passes one. Stay just above.
- The opening grows by about 6 % when the disc comes free. The line is drawn smaller by that much.

## What is asked

- Diameter 4.5 to 5.5 mm: 5.0 to 5.25 mm is the usual target in adults; half a millimetre either way of the target, about the mean error of a tear by hand (0.34 mm) plus half its spread.
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'adult-shallow-chamber': `# A 65-year-old, shallow chamber

The same capsule with half of the fluid gone. The lens comes forward, the net pressure on the capsule is up, and the sheet is stretched as a child's is. A tear that was easy a moment ago leans outward.

## What to do

1. Do not touch the flap yet. Take the cannula and fill the chamber until it is full.
2. Tear an eighth to a quarter of the way, then look at the chamber pressure before you grasp again.
3. Refill whenever the net pressure comes near the pressure at which the tear would run by itself.

## What to watch

- The net pressure on the tip card and the figure beside it at which this tear runs without a pull.
- A shaft that presses on the side of its incision gapes it, and the fluid goes faster. Turn the instrument about the incision.
- Refilling while tissue is held is not possible with the same hand: let go first.

## What is asked

- Diameter 4.5 to 5.5 mm: 5.0 to 5.25 mm is the usual target in adults; half a millimetre either way of the target, about the mean error of a tear by hand (0.34 mm) plus half its spread.
- At least one refill: the exercise is about the chamber (our own rule).
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'infant-needle': `# Six months old, needle first

The whole tear from the uncut capsule. A puncture in a stretched sheet has two ends, and both can tear.

## What to do

1. Puncture half way out to the line and draw a short slit to the line and a little along it.
2. Change to the forceps, take the central edge of the slit close to the end that is to lead, and lay it over.
3. Carry the tear round as before.

## What to watch

- The end you are not pulling. If it begins to open, let go and pull from nearer to the other.
- A slit that points to the rim is a run-out waiting: turn it along the line before you let go of the needle.

## What is asked

- Diameter 4.3 to 5.3 mm: the target of 4.8 mm lies in the 4 to 5 mm that did best of three sizes in children; half a millimetre either way covers the mean error of a tear by hand (0.34 mm).
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'infant-pressure-behind': `# Six months old, pressure from behind

Thick fluid that stays in, and still the net pressure is up: the push from behind is more than this chamber can hold against. Refilling does not take it away, so the pull has to.

## What to do

1. Aim at a smaller line than the one drawn: this opening grows by more.
2. Lean farther to the centre than before, with short grasps close to the tip.
3. Do not stop with the tip far out. Where the sheet's share is high, waiting is no rest.

## What to watch

- How the arrow of the sheet has grown against the same eye with less pressure.
- The pressure at which the tear runs by itself: how much room is left?

## What is asked

- Diameter 4.3 to 5.3 mm: the target of 4.8 mm lies in the 4 to 5 mm that did best of three sizes in children; half a millimetre either way covers the mean error of a tear by hand (0.34 mm).
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'infant-thick-fluid': `# Six months old, thick fluid

The eye this program was made for. The capsule is thin, soft and already stretched; thick fluid in the chamber holds the lens back and makes the tear possible.

## What to do

1. Keep the chamber full of the thick fluid: it is the first thing to put right, before any angle.
2. Grasp the flap close to the tip, lay it over, and pull toward the centre more than along the line.
3. Let go and grasp again every one to one and a half clock hours.
4. Slow down over the last hour and meet the start from outside.

## What to watch

- The sheet's arrow points outward all the way round. The pull has to supply what is missing inward.
- The flap stretches before it tears: your hand moves far, and a late correction comes through a long soft spring.
- The opening grows by about a quarter. A line of 3.8 mm ends at 4.8 mm.

## What is asked

- Diameter 4.3 to 5.3 mm: the target of 4.8 mm lies in the 4 to 5 mm that did best of three sizes in children; half a millimetre either way covers the mean error of a tear by hand (0.34 mm).
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'infant-thin-fluid': `# Six months old, thin fluid, pressure from behind

The same capsule with a fluid that runs out of the wounds, and with an eye's full pressure behind the lens. Every second without a refill raises the tension.

## What to do

1. Watch the net pressure and refill before it nears the pressure at which this tear runs by itself.
2. Work in short turns: refill, grasp, tear half an hour of the clock, let go, refill.
3. Aim for a smaller line; what is lost to the outside does not come back.

## What to watch

- In published series fewer children's openings were completed with thin fluid than with thick. Try both and see why.
- "From here, letting go would already run" on the strip: the moment after which only fluid helps.

## What is asked

- Diameter 4.3 to 5.3 mm: the target of 4.8 mm lies in the 4 to 5 mm that did best of three sizes in children; half a millimetre either way covers the mean error of a tear by hand (0.34 mm).
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'infant-two-nicks': `# Six months old, two nicks

Another way round an infant's capsule. Two short nicks stand opposite each other, 4.6 mm apart. The edge of the far one is pulled and that of the near one pushed toward the centre, so that four ends run round at once and meet at the sides. Pulls that point at each other hold each other: neither nick has to be led along a line.

## What to do

1. Take the central edge of the far nick in its middle, lay it over and draw it to the centre until both ends have torn about half a millimetre.
2. Do the same with the near nick, pushing.
3. Go on in turns, so that both halves come on alike. Take the edge farther in each time, close behind the two ends.
4. When the tears have met on one side, take the flap near the ends that are left and close the other side.

## What to watch

- The first draw is the hardest: a blunt nick needs several times the force of a running tear. Draw slowly; the sheet gives way before it tears.
- Both ends of the nick you hold. If one runs ahead, draw a little toward the other.
- The opening is torn as high as the nicks are far apart and grows when the disc comes free. It is mostly less wide than high: the guided hand, from nicks 4.6 mm apart, ends with 5.7 mm by 4.7 mm, as large as a circle of 5.2 mm.

## What is asked

- Diameter 4.3 to 5.3 mm: the published series of 84 eyes aimed at 4 to 4.5 mm, the best of three sizes in children were 4 to 5 mm; a little more is allowed for, since the nicks alone set the height.
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'later-implant': `# A 2-year-old, 4 mm for a later implant

No lens goes in today. The opening is small, so that it can hold an implant later. A small line bends more sharply and its flap is small.

## What to do

1. The line is only 3.2 mm wide. Grasp every clock hour.
2. Pull slowly: on a small circle a millimetre of tear is almost a sixth of the way round.
3. Lean well to the centre; a small drift outward is a large error here.

## What to watch

- The opening grows by a quarter: 3.2 mm become 4.0.
- The distance of the tip from the line, seen at rest.

## What is asked

- Diameter 3.6 to 4.4 mm: the target of 4.0 mm is the lower end of the size that did best in children; the limits are about the mean error of a tear by hand (0.34 mm).
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'off-centre-lens': `# A 6-year-old whose lens lies off centre

Part of the zonules are weak and the lens has moved away from them. The pupil no longer says where the middle of the lens is.

## What to do

1. Centre the opening on the lens. The target circle is drawn there.
2. Tear toward the weak side with short grasps: the sheet gives way with the flap instead of holding against it.
3. Begin and end on the strong side, where the sheet holds.

## What to watch

- The sheet is less tense across the weak sector. The sheet's arrow is not the same all round.
- How far the whole capsule follows your pull on the weak side.

## What is asked

- Diameter 4.3 to 5.3 mm: the target of 4.8 mm lies in the 4 to 5 mm that did best of three sizes in children; half a millimetre either way covers the mean error of a tear by hand (0.34 mm).
- Distances are measured from the centre of the lens.
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'pair-dyed': `# The same 4-year-old, capsule dyed

Second half of the pair. In one paired test a dyed capsule broke at two thirds of the stress; other tests found no change, or the contrary. This eye takes the first finding at its word, so that you feel what it would mean.

## What to do

1. Rinse-out is not part of this exercise; the capsule is blue from the start.
2. Take the flap round with the same hand as before and compare force, grasps and time.

## What to watch

- The tear goes at two thirds of the force. The sheet's own share of it is larger by half: it leans outward a little more.
- Do not read this as a statement about dyes. The tests contradict each other.

## What is asked

- Diameter 4.3 to 5.3 mm: the target of 4.8 mm lies in the 4 to 5 mm that did best of three sizes in children; half a millimetre either way covers the mean error of a tear by hand (0.34 mm).
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'pair-undyed': `# A 4-year-old, capsule not dyed

First half of a pair: one eye twice, without and with dye. What differs is only how much the capsule resists the tear.

## What to do

1. Take the flap round to 4.8 mm as in any child.
2. Note the RMS force, the number of grasps and the time, then open the dyed eye.

## What to watch

- The edge of an undyed capsule is hard to see without red reflex. The aids show what you would have to guess.

## What is asked

- Diameter 4.3 to 5.3 mm: the target of 4.8 mm lies in the 4 to 5 mm that did best of three sizes in children; half a millimetre either way covers the mean error of a tear by hand (0.34 mm).
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'running-tear': `# Running tear: bring it back

The tear has begun to run outward and the chamber is nearly empty: a little more, and it reaches the zonules, where no pull brings it back. What helps first is not a pull.

## What to do

1. Stop. Do not pull, not even toward the centre.
2. Fill the chamber until it is full. The sheet goes slack and the tear has no more drive of its own.
3. Unfold the flap and lay it flat, in the plane of the capsule.
4. Pull it back along the tear, away from the tip, until the tip turns inward.
5. Then lay the flap over as usual and go on, leaning to the centre, until you are on the line again.

## What to watch

- The figure beside the net pressure: at that pressure the tear runs by itself. At the start the two nearly touch.
- Pulling to the centre at once adds your force to the sheet's. See what comes of it.
- Near run-outs and rescues on the strip of events.

## What is asked

- Diameter 4.3 to 5.5 mm and centroid within 0.4 mm: wider than elsewhere, since the way already torn cannot be undone; beyond 0.4 mm a drift of refraction was seen.
- At least one refill (our own rule).
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'six-years': `# A 6-year-old

A child's capsule under a well filled chamber. It forgives more than an infant's and less than an adult's.

## What to do

1. Draw the line at 4.1 mm for an opening of 4.8 mm: the opening grows by about a fifth.
2. Grasp every one to two clock hours, near the tip.
3. Lean the pull to the centre: about 35 degrees on the line, more as soon as the tip drifts out.

## What to watch

- The distance of the tip from the line while nothing is held. During a pull the soft sheet moves with you and hides it.
- The sheet's arrow: it points outward at every place of the circle.

## What is asked

- Diameter 4.3 to 5.3 mm: the target of 4.8 mm lies in the 4 to 5 mm that did best of three sizes in children; half a millimetre either way covers the mean error of a tear by hand (0.34 mm).
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'small-pupil': `# A 60-year-old with a small pupil

The pupil is smaller than the line. Most of the edge that you tear runs under the iris. The capsule does not know that: a small pupil hides the tear and does not change it.

## What to do

1. Work by the flap: the part you can see tells where the part you cannot see is.
2. Keep the grasps inside the pupil and let the tear follow.
3. Use the tip card as you would use the feeling of the hand.

## What to watch

- The iris pushes back on a low instrument that leaves the pupil.
- Too small is as bad as too wide: an opening torn inside a small pupil is easily too small.

## What is asked

- Diameter 4.5 to 5.5 mm: 5.0 to 5.25 mm is the usual target in adults; half a millimetre either way of the target, about the mean error of a tear by hand (0.34 mm) plus half its spread.
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'swollen-white-lens': `# A 35-year-old with a swollen white lens

The lens is full of fluid under pressure and the capsule is tight as a drum. A cut in such a sheet goes on by itself, both ways, faster than a hand can follow. The pressure falls as soon as the cut gapes; the question is only how far it has run by then.

## What to do

1. Fill the chamber before anything is touched, until it pushes back on the lens. Published advice is about 40 mmHg in the chamber before opening; this eye takes that number. The pressures inside and behind the lens are assumed.
2. Puncture well inside the line and draw a slit of less than a millimetre along it. Wait until it rests.
3. Change to the forceps, take the central edge and pull gently. The slit splits with a jerk and the pressure is gone. Let go and let it stop.
4. Fill again, and again each time the chamber has lost a little of its pressure. Carry the end that lies nearer to the line out to it and round, with short pulls and a fresh grasp each time.

## What to watch

- What happens when you puncture without filling first. Try it once: the slit is at the rim in a fraction of a second.
- Where the split goes. Begun well inside the line it stays inside: the piece across the middle comes away with the disc.
- The net pressure. As long as the chamber pushes harder than what is behind it, the tear goes where the pull takes it.

## What is asked

- Diameter 4.5 to 5.5 mm: 5.0 to 5.25 mm is the usual target in adults; half a millimetre either way of the target, about the mean error of a tear by hand (0.34 mm) plus half its spread.
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'twenty-years': `# A 20-year-old

Half way between child and adult. The capsule is tougher than an old one and stretches more before it tears, so the hand moves first and the tear follows later.

## What to do

1. Grasp near the tip: a short piece of flap between grip and tip is a stiffer spring.
2. Pull evenly at about 35 degrees toward the centre and wait for the tear. Do not chase it.
3. When it goes, slow down: energy is stored in the sheet and the tear outruns a hurried hand.

## What to watch

- Time under tension without tearing. A long wait at a high force ends in a jump.
- The opening will grow by about a tenth when the disc comes free; between children and adults nobody has measured it.

## What is asked

- Diameter 4.5 to 5.5 mm: 5.0 to 5.25 mm is the usual target in adults; half a millimetre either way of the target, about the mean error of a tear by hand (0.34 mm) plus half its spread.
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
  'two-years': `# A 2-year-old

Thinner, softer and more stretched than at six. The same hand, the same fluid, and the tear leans farther out.

## What to do

1. Draw the line at 3.9 mm for 4.8 mm.
2. Grasp often and near the tip; pull slowly and lean to the centre.
3. If the tip drifts out by more than a few tenths of a millimetre, correct at once: the farther out, the stronger the sheet pulls outward.

## What to watch

- How much steeper the pull must be than in the adult to stay on the same circle.
- The net pressure. A few mmHg more from behind are enough to let the tear run.

## What is asked

- Diameter 4.3 to 5.3 mm: the target of 4.8 mm lies in the 4 to 5 mm that did best of three sizes in children; half a millimetre either way covers the mean error of a tear by hand (0.34 mm).
- Centroid within 0.3 mm of the centre: the mean of openings torn by hand in one study, where more than 0.4 mm went with a drift of refraction.
- Circularity at least 0.85, a little better than the 0.83 published for openings torn by hand; axis ratio at least 0.8 and no radial nick, both our own limits.
- The edge of a 6.0 mm optic covered all round: incomplete cover went with four times the change of cylinder in the same study.
- RMS force at most 25 mN: practised hands were measured at about 9 mN, new ones at about 17; the limit is our own.

Teaching model, not for planning surgery. Local protocol and supervised practice come first.
`,
};
