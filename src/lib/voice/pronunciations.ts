/**
 * How the words of the table sound, in the 39 sounds of the acoustic model, for English: from the CMU Pronouncing Dictionary (Carnegie Mellon
 * University, BSD licence, shipped beside the model), a second way for `eighth`, `half`, `niche` and `quarter` added by ear. Places that
 * people name with other words are not heard; they are touched.
 */
const SPELLED = `
a: AH, EY
air: EH R
an: AE N, AH N
and: AH N D, AE N D
at: AE T
back: B AE K
band: B AE N D
bath: B AE TH
bathroom: B AE TH R UW M
before: B IH F AO R, B IY F AO R
begin: B IH G IH N
behind: B IH HH AY N D
bench: B EH N CH
big: B IH G
board: B AO R D
bond: B AA N D
ceiling: S IY L IH NG
celsius: S EH L S IY AH S
centimeter: S EH N T AH M IY T ER
centimeters: S EH N T AH M IY T ER Z
check: CH EH K
clean: K L IY N
coat: K OW T
corner: K AO R N ER
curb: K ER B
degree: D IH G R IY
degrees: D IH G R IY Z
door: D AO R
drain: D R EY N
dry: D R AY
east: IY S T
eight: EY T
eighteen: EY T IY N
eighth: EY T TH, EY TH
eighths: EY T TH S, EY TH S, EY T S
eighty: EY T IY
eleven: IH L EH V AH N, IY L EH V AH N
end: EH N D
entrance: EH N T R AH N S
entry: EH N T R IY
fahrenheit: F EH R AH N HH AY T
fifteen: F IH F T IY N
fifty: F IH F T IY
film: F IH L M
first: F ER S T
fit: F IH T
five: F AY V
flat: F L AE T
flood: F L AH D
floor: F L AO R
foot: F UH T
forty: F AO R T IY
four: F AO R
fourteen: F AO R T IY N
front: F R AH N T
gallon: G AE L AH N
gallons: G AE L AH N Z
guest: G EH S T
half: HH AE F, HH AA F
hall: HH AO L
height: HH AY T
humidity: HH Y UW M IH D AH T IY
hundred: HH AH N D R AH D, HH AH N D R IH D, HH AH N ER D, HH AH N D ER D
inch: IH N CH
inches: IH N CH AH Z, IH N CH IH Z
inside: IH N S AY D
is: IH Z
lap: L AE P
last: L AE S T, L AE S
lay: L EY
ledge: L EH JH
left: L EH F T
level: L EH V AH L
liner: L AY N ER
liquid: L IH K W AH D, L IH K W IH D
liter: L IY T ER
liters: L IY T ER Z
long: L AO NG
lower: L OW ER
main: M EY N
master: M AE S T ER
meter: M IY T ER
micron: M AY K R AA N
microns: M AY K R AA N Z
mil: M IH L
millimeter: M IH L AH M IY T ER
millimeters: M IH L AH M IY T ER Z
mils: M IH L Z
minus: M AY N AH S
moisture: M OY S CH ER
niche: N IH CH, N IY SH
nine: N AY N
nineteen: N AY N T IY N
ninety: N AY N T IY
no: N OW
north: N AO R TH
note: N OW T
of: AH V
oh: OW
one: W AH N, HH W AH N
onto: AA N T UW, AO N T UW
out: AW T
outside: AW T S AY D
overlap: OW V ER L AE P
pan: P AE N
per: P ER
percent: P ER S EH N T
pieces: P IY S AH Z, P IY S IH Z
plumbing: P L AH M IH NG
point: P OY N T
protect: P R AH T EH K T
quart: K W AO R T
quarter: K W AO R T ER, K AO R T ER
quarters: K W AO R T ER Z, K AO R T ER Z
quarts: K W AO R T S
repair: R IH P EH R
right: R AY T
room: R UW M
scrape: S K R EY P
seams: S IY M Z
seat: S IY T
second: S EH K AH N D
set: S EH T
seven: S EH V AH N
seventeen: S EH V AH N T IY N
seventy: S EH V AH N T IY, S EH V AH N IY
sheets: SH IY T S
shelf: SH EH L F
short: SH AO R T
show: SH OW
shower: SH AW ER
side: S AY D
six: S IH K S
sixteen: S IH K S T IY N
sixteenth: S IH K S T IY N TH
sixteenths: S IH K S T IY N TH S
sixty: S IH K S T IY
slope: S L OW P
small: S M AO L
south: S AW TH
surface: S ER F AH S
survey: S ER V EY
temperature: T EH M P R AH CH ER, T EH M P ER AH CH ER
ten: T EH N
test: T EH S T
that: DH AE T, DH AH T
the: DH AH, DH IY
third: TH ER D
thirteen: TH ER T IY N
thirty: TH ER D IY, TH ER T IY
thousand: TH AW Z AH N D, TH AW Z AH N
three: TH R IY
threshold: TH R EH SH OW L D
tile: T AY L
timers: T AY M ER Z
top: T AA P, T AO P
tray: T R EY
tub: T AH B
twelve: T W EH L V
twenty: T W EH N T IY, T W EH N IY
two: T UW
undo: AH N D UW
upper: AH P ER
upturn: AH P T ER N
used: Y UW Z D
valve: V AE L V
voice: V OY S
volume: V AA L Y UW M
wall: W AO L
walls: W AO L Z
water: W AO T ER
west: W EH S T
wet: W EH T
window: W IH N D OW
wrong: R AO NG
yes: Y EH S
zero: Z IH R OW, Z IY R OW
`;

/** The sounds of the acoustic model for US English. */
export const SOUNDS = 'AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH'.split(' ');

/** Each word and the ways it sounds, the first the commonest. */
export const PRONUNCIATIONS: ReadonlyMap<string, readonly string[]> = new Map(
  SPELLED.trim()
    .split('\n')
    .map((line) => {
      const [word = '', ways = ''] = line.split(': ');
      return [word, ways.split(', ')] as const;
    }),
);
