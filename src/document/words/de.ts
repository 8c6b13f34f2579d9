/** Our printed words in German. Signal words as in the German ISO 3864-2 practice; "Achtung" is chemical-label law. */
import { deAfter } from "./de-after.ts"
import { direction, list, measures, sayKind, sayRevision, side, some, stopAt, times } from "./de-phrases.ts"
import { deTightening } from "./tightening.ts"
import type { Words } from "./types.ts"

/** German. Acts stand in the infinitive, as is usual for instructions. */
export const de: Words = {
  language: "de",
  measures,
  list,
  // German nouns keep their capital.
  nameInSentence: (name) => name,
  endOf: (end, cable) => `${end} von „${cable}“`,
  fastener: sayKind,

  signal: { danger: "GEFAHR", warning: "WARNUNG", caution: "VORSICHT", notice: "HINWEIS" },
  signalMeaning: {
    danger: "Tod oder schwere Verletzung tritt ein, wenn die Gefahr nicht gemieden wird.",
    warning: "Tod oder schwere Verletzung kann eintreten, wenn die Gefahr nicht gemieden wird.",
    caution: "Leichte oder mittlere Verletzung kann eintreten, wenn die Gefahr nicht gemieden wird.",
    notice: "Schaden am Bausatz oder an Ihrem Gerät kann eintreten. Niemand wird verletzt.",
  },
  consequence: (harm, may) => {
    const result = {
      death: "Tod",
      serious: "schwere Verletzung",
      moderate: "mittlere Verletzung",
      minor: "leichte Verletzung",
      damage: "Sachschaden",
    }[harm]
    return may === "will" ? `Folge: ${result}.` : `Mögliche Folge: ${result}.`
  },

  acts: {
    inWords: (verb, words) =>
      `${{ inspect: "Prüfen", verify: "Sicherstellen", clean: "Reinigen", align: "Ausrichten", turn: "Drehen", wait: "Warten" }[verb as string] ?? "Ausführen"}: ${words}`,
    place: (what, position) => `${some(what)} einsetzen${position === undefined ? "" : `, Position „${position}“`}`,
    remove: (what) => `${some(what)} abnehmen`,
    align: (what) => `${what} ausrichten`,
    start: (items, through, into) =>
      `${items} von Hand ansetzen` +
      (through.length === 0 ? "" : `, durch: ${list(through)}`) +
      (into.length === 0 ? "" : `, in: ${list(into)}`),
    tighten: (items, tool) => `${items}${tool === undefined ? "" : ` mit ${tool}`} festziehen auf`,
    tightenToSeat: (items, tool) =>
      `${items}${tool === undefined ? "" : ` mit ${tool}`} festziehen, bis der Kopf aufliegt, dann aufhören`,
    unscrew: (items, from) => `${items} herausdrehen${from === undefined ? "" : `, aus: ${from}`}`,
    feed: (end, passage, turnDeg) =>
      `${end} durchführen, durch: ${passage}${turnDeg === undefined ? "" : `, um etwa ${turnDeg}° gedreht`}`,
    layIn: (cable, passage) => `${cable} einlegen, in: ${passage}`,
    withdraw: (end, passage) => `${end} zurückziehen${passage === undefined ? "" : `, aus: ${passage}`}`,
    connect: (end, socket) => `${end} anschließen${socket === undefined ? "" : `, an: ${socket}`}`,
    disconnect: (end, socket) => `${end} abziehen${socket === undefined ? "" : `, von: ${socket}`}`,
    strap: (items, round, until) =>
      `${items} schließen${round === undefined ? "" : `, um: ${round}`}${until === undefined ? "" : `, bis: ${until}`}`,
    trim: (items) => `Überstände bündig abschneiden: ${items}`,
    clean: (what) => `${what} reinigen`,
    stick: (items, on) => `${items} aufkleben${on === undefined ? "" : `, auf: ${on}`}`,
    open: (what) => `${what} öffnen`,
    close: (what) => `${what} schließen`,
    tightenGland: (gland) => `${gland} von Hand festdrehen, bis das Kabel fest sitzt`,
    loosenGland: (gland) => `${gland} lösen`,
    turn: (what, to) =>
      `${what} ${to === undefined ? "umdrehen" : `drehen, sodass Sie diese Seite sehen: ${side(to)}`}`,
    isolate: (what) => `${what} von der Versorgung trennen`,
    verify: (what) => `Spannungsfreiheit feststellen: ${what}`,
    restore: (what) => `Versorgung wieder einschalten: ${what}`,
    inspect: (what) => (what === undefined ? "Liste der Endprüfung durchgehen" : `${what} prüfen`),
    setAside: (what, bag) => (bag === undefined ? `${what} beiseitelegen` : `${what} in den Beutel „${bag}“ legen`),
    discard: (what) => `${what} entsorgen`,
    wait: "Warten",
    waitFor: (what) => `${what} ruhen lassen`,
    everything: "gesamte Baugruppe",
    direction,
  },

  tightening: deTightening,
  labels: {
    guide: "Montageanleitung",
    card: "Beilegekarte",
    variant: "Variante",
    revision: "Ausgabe",
    date: "Datum",
    supplier: "Anbieter",
    language: "Sprache",
    contents: "In dieser Anleitung",
    use: "Bestimmungsgemäße Verwendung und Grenzen",
    box: "Lieferumfang",
    tools: "Werkzeug und Hilfsmittel",
    consumables: "Hilfsmittel",
    safety: "Sicherheit",
    steps: "Schritte",
    inspection: "Endprüfung",
    aftercare: "Pflege",
    trouble: "Wenn etwas nicht stimmt",
    removal: "Abbau und Entsorgung",
    order: "Warum diese Reihenfolge",
    about: "Über diese Anleitung",
    skip: "Zu den Schritten",
    take: "Nehmen",
    figure: "Ansehen",
    how: "Lesen",
    do: "Tun",
    check: "Prüfen",
    reference: "Pos.",
    count: "Anzahl",
    designation: "Bezeichnung",
    bag: "Beutel",
    spare: "Davon Ersatz",
    lifeSize: "Maßstab 1:1",
    torque: "Drehmoment",
    tool: "Werkzeug",
    limits: "Grenzen",
    hazard: "Gefahr durch",
    yes: "Ja",
  },

  front: {
    fits: "Passt zu",
    tube: (shape, size) =>
      shape === "square"
        ? `Vierkantrohr, Breite ${size}`
        : `${shape === "round" ? "Rundrohr" : "Rohr"}, Außendurchmesser ${size}`,
    load: (mass) => `Last höchstens ${mass}`,
    temperature: (range) => `Temperatur ${range}`,
    other: (name, value) => `${name}: ${value}`,
    finished: "Fertig montiert",
    finishedAlt: (title, parts) => `${title}, vollständig montiert: ${parts}.`,
    checkHeading: "Prüfen, bevor Sie die Beutel öffnen",
    checkIntro: "Nur beginnen, wenn jede Zeile zutrifft.",
    checkTube: (shape, size) =>
      shape === "square"
        ? `Das Rohr ist vierkantig, Breite ${size}.`
        : `Der Außendurchmesser des Rohrs beträgt ${size}.`,
    checkTubeNot: "Beutel nicht öffnen. Den Anbieter nach der Variante für Ihr Rohr fragen.",
    checkUnit: (unit, product, revision) => `Auf dem Typenschild steht ${product}${sayRevision(revision)} (${unit}).`,
    checkUnitNot: "Beutel nicht öffnen. Den Anbieter nach der Variante für Ihr Gerät fragen.",
    checkLoad: (mass) => `Der Bausatz trägt höchstens ${mass}.`,
    checkLoadNot: "Diesen Bausatz nicht verwenden.",
    checkTemperature: (range) => `Temperatur am Einsatzort: ${range}.`,
    checkTemperatureNot: "Einen anderen Ort wählen.",
    checkBox: "Beutel und Teile entsprechen dem „Lieferumfang“.",
    checkBoxNot: "Nicht beginnen. Dem Anbieter die Positionsnummer nennen.",
    ifNot: "Sonst",
    need: "Sie brauchen",
    resources: (persons, duration) =>
      [
        ...(persons === undefined ? [] : [times(persons, "Person", "Personen")]),
        ...(duration === undefined ? [] : [`etwa ${duration}`]),
      ].join(", "),
    fromTo: (first, last) => `${first} bis ${last}`,
    stops: (steps, count) =>
      `Sie können die Arbeit nach ${count === 1 ? "Schritt" : "den Schritten"} ${steps} unterbrechen.`,
    skills: "Für Erwachsene, die mit Handwerkzeug umgehen und ein Drehmoment einstellen können.",
    worst: "Das Wichtigste",
    invented: "Alle Namen und Zahlen dieses Bausatzes sind erfunden. Nicht nach dieser Anleitung bauen.",
    readFirst: "Erst die Anleitung lesen, dann aufbewahren.",
    translated: (original) =>
      `Übersetzung der festen Wörter; die Texte des Herstellers stehen in der Originalsprache (${original}).`,
    environment: {
      heading: "Geeignet für",
      sun: "Sonnenlicht",
      wet: "Nässe",
      salt: "salzhaltige Luft",
      vibration: "Vibration",
    },
    intended: "Verwendung",
    notFor: "Nicht geeignet für",
    noHazard: "Gefahren für Personen sind nicht bekannt. Hinweise zu Schäden stehen bei den Schritten.",
    energyUnnamed:
      "Das Gerät führt Energie. Die Schritte zum Abschalten, die Anleitung des Geräts und die örtlichen Regeln einhalten.",
    noUse: "Der Anbieter hat die bestimmungsgemäße Verwendung nicht beschrieben.",
    unitFacts: {
      earth: "Erdung",
      cooling: "Kühlung",
      up: (name) => `Die Oberseite des Geräts zeigt nach der Montage nach ${direction(name)}.`,
    },
  },

  box: {
    intro: "Positionsnummern sind in Bildern, Listen, Text und auf der Karte gleich. Beutel auslegen und Teile zählen.",
    bag: (id, name) => (name === "" || name === id ? `Beutel ${id}` : `Beutel ${id}: ${name}`),
    loose: "Lose im Karton",
    looseShort: "lose",
    ownScrews: "Leer. Er ist für die Schrauben, die von Ihrem eigenen Gerät abgehen.",
    ofWhichSpare: (count) => `${measures.number(count)}\u00a0Ersatz`,
    tie: (name, size) => `${name}: Kabelbinder ${size}`,
    band: (name, size) => `${name}: Metallband ${size}`,
    pad: (name, size) => (size === undefined ? name : `${name}, ${size}`),
    hand: (name, hand) => `${name} (${hand === "left" ? "linke" : "rechte"} Ausführung)`,
    cable: (name, length) => (length === undefined ? name : `${name}, Länge ${length}`),
    lookAlikeHeading: "Leicht zu verwechseln",
    lookAlikeIntro: "Das Teil vor Gebrauch auf das Bild legen.",
    lookAlikeLength: (one, oneLength, other, otherLength) =>
      `${one} ist ${oneLength} lang, ${other} ist ${otherLength} lang.`,
    lookAlikeOther: (one, other) => `${one} und ${other} unterscheiden sich in Kopf oder Gewinde.`,
    lifeSizeNote: "Bilder von Verbindungsteilen sind 1:1, wenn die Seite mit 100 % gedruckt ist. Skala in Millimeter.",
    itemAlt: (designation, length) =>
      `${designation}${length === undefined ? "" : `, ${length} lang`}: Bild in Originalgröße`,
  },

  tools: {
    name: (kind, size) =>
      ({
        "hex-key": `Innensechskantschlüssel ${size}\u00a0mm`,
        hexalobular: `Innensechsrund-Schraubendreher T${size}`,
        "cross-pz": `Kreuzschlitz-Schraubendreher PZ${size}`,
        "cross-ph": `Kreuzschlitz-Schraubendreher PH${size}`,
        slot: `Schlitz-Schraubendreher ${size}`.trim(),
        wrench: `Schraubenschlüssel SW\u00a0${size}`,
        "torque-driver": "Drehmoment-Schraubendreher",
        "side-cutters": "Seitenschneider",
      })[kind],
    torqueDriver: (range) =>
      range === undefined ? "Drehmoment-Schraubendreher" : `Drehmoment-Schraubendreher für ${range}`,
    forItems: (items) => `für ${items}`,
    use: "Verwendung",
    noneSupplied: "Keines dieser Werkzeuge liegt im Karton.",
    consumablesNeeded: "Diese Hilfsmittel liegen nicht im Karton:",
    supplied: (name) => `${name} (im Karton)`,
    noConsumables: "Hilfsmittel werden nicht gebraucht.",
  },

  steps: {
    heading: (number) => `Schritt ${number}`,
    reference: (number) => `Schritt\u00a0${number}`,
    titled: (number, title) => `Schritt\u00a0${number} (${title})`,
    figure: (number) => `Bild ${number}`,
    caption: ({ items, off, view, isTurned }) => {
      const seen = `${isTurned ? "Ansicht gedreht, jetzt von" : "Ansicht von"} ${direction(view)}`
      const taken = off.length === 0 ? "" : ` Kommt ab: ${list(off)}.`
      return (items.length === 0 ? `${seen}.` : `${seen}. Neu: ${list(items)}.`) + taken
    },
    alt: ({ items, isExploded, view }) => {
      const named = list(items)
      if (named === "") return `Strichzeichnung der Baugruppe in diesem Schritt, Ansicht von ${direction(view)}`
      return isExploded
        ? `Strichzeichnung, Ansicht von ${direction(view)}: ${named}, auseinandergezogen; Linien zeigen, wohin jedes Teil kommt`
        : `Strichzeichnung, Ansicht von ${direction(view)}: ${named} eingebaut`
    },
    openBags: (open, away) => {
      const bags = (ids: readonly string[]) => `Beutel\u00a0${list(ids)}`
      return `${away.length === 0 ? "" : `${bags(away)} weglegen. `}${bags(open)} öffnen.`
    },
    ownScrews: "eigene Schrauben",
    noResult: "Jede Zeile dieses Schritts ist erledigt.",
    time: (duration) => `Etwa ${duration}`,
    tickIntro:
      "Schritte in dieser Reihenfolge ausführen. Jede Prüfung abhaken. Trifft eine nicht zu: anhalten und unter „Wenn etwas nicht stimmt“ nachsehen.",
    whyNow: {
      inTheWay: (name, step) => `Jetzt erledigen: ab Schritt\u00a0${step} ist ${name} im Weg.`,
      inHand: (name, step) =>
        `Jetzt erledigen: ${name} liegt noch lose in der Hand und wird in Schritt\u00a0${step} eingesetzt.`,
      tight: (name, step) => `Jetzt erledigen: Schritt\u00a0${step} zieht ${name} fest.`,
      threaded: (cable, passage, step) => `Jetzt erledigen: ab Schritt\u00a0${step} läuft ${cable} durch ${passage}.`,
    },
    lastChance: (checks) => `Letzte Gelegenheit zu prüfen: ${checks.join("; ")}.`,
    aligned: (name) => `${name}: ausgerichtet.`,
    stop: (next, isIsolated) =>
      `Hier können Sie unterbrechen${isIsolated ? "; die Versorgung bleibt getrennt" : ""}. ${next === undefined ? "Danach bis zum Ende weiterarbeiten." : `Die nächste Gelegenheit ist nach Schritt\u00a0${next}.`}`,
  },

  notices: {
    crossThread: {
      avoid: (items) => `${items} zwei Umdrehungen von Hand eindrehen, erst dann Werkzeug benutzen.`,
      why: "Eine schräg angesetzte Schraube zerstört das Gewinde.",
    },
    plasticThread: {
      avoid: stopAt,
      why: "Das Gewinde im Kunststoff reißt aus, wenn weitergedreht wird, und hält nicht wieder.",
    },
    plasticPart: {
      avoid: stopAt,
      why: (parts) => `Mehr Drehmoment zerdrückt oder sprengt den Kunststoff: ${parts}.`,
    },
    ownScrews: {
      avoid: (items) => `${items} Ihres Geräts aufbewahren.`,
      why: (long, longLength, ownLength) =>
        `Ohne den Bausatz gehören sie zurück: ${long} des Bausatzes, ${longLength} statt ${ownLength}, stoßen am Gewindegrund an.`,
      whyKept: "Sie werden beim Abbau gebraucht.",
    },
    oneByOne: {
      avoid: (items) => `${items} einzeln nacheinander wechseln.`,
      why: (held) => `Diese Schrauben halten auch etwas im Gerät: ${held}.`,
    },
  },

  ...deAfter,

  card: {
    readGuide: "Anleitung lesen, bevor Sie beginnen.",
    scan: "Anleitung zu dieser Ausgabe:",
    qrAlt: (address) => `QR-Code mit der Adresse ${address}`,
    check: "Prüfen, bevor Sie die Beutel öffnen",
    torqueNote: "* Berechnet: an einem Muster prüfen.",
    empty: "(leer)",
    seeGuide: "siehe Anleitung",
    steps: (count) => times(count, "Schritt", "Schritte"),
  },

  index: {
    title: "Montageanleitungen",
    intro: "Messen Sie Ihr Rohr und wählen Sie dann die passende Anleitung.",
    choose: "Anleitung wählen",
    fits: "Passt zu",
    links: {
      guide: "Anleitung für Telefon und Bildschirm",
      a4: "PDF, A4",
      letter: "PDF, Letter",
      card: "Karte",
      report: "Bericht",
    },
    linkTitle: (link, kit, variant) => `${link}: ${kit}, ${variant}`,
    verdict: "Ergebnis",
    result: "Befunde",
    counts: (errors, warnings) => `${times(errors, "Fehler", "Fehler")}, ${times(warnings, "Warnung", "Warnungen")}`,
    noDocuments: "Noch keine Dokumente: Die Prüfungen haben Fehler gefunden.",
    notCurrent: "Nicht aktuell: Der neueste Lauf hat nicht bestanden. Dies sind die letzten guten Dokumente.",
    current: "Aktuell",
    picture: (kit, variant) => `Fertig montiert: ${kit}, ${variant}`,
    makerHeading: "Für den Hersteller: Ergebnisse der Prüfungen",
    empty: "Noch keine Anleitung erzeugt.",
  },

  report: {
    title: (kit, variant) => `Befunde: ${kit}, ${variant}`,
    none: "Keine Befunde.",
    counts: (errors, warnings, notes) =>
      `${times(errors, "Fehler", "Fehler")}, ${times(warnings, "Warnung", "Warnungen")}, ${times(notes, "Anmerkung", "Anmerkungen")}.`,
    severity: { error: "Fehler", warning: "Warnung", note: "Anmerkung" },
    why: "Grund",
    fix: "Abhilfe",
    related: "Siehe auch",
    accepted: (reason) => `Angenommen: ${reason}`,
    source: "Quelle",
    joints: "Werte der Verbindungen",
    origin: "Herkunft",
    joint: "Verbindung",
    grip: "Klemmlänge",
    engagement: "Einschraubtiefe",
    governing: "Begrenzt durch",
    ties: "Werte der Binder",
    tie: "Binder",
    loop: "Um die Teile",
    needed: "Nötig",
    supplied: "Geliefert",
    slot: "Schlitz",
    load: "Last",
    loadOf: (needed, born, factor) => `${needed} von ${born}, Faktor ${factor}`,
    seats: "Auflagen auf dem Rohr",
    part: "Teil",
    measured: "Gemessen",
    gap: "Spalt",
    passages: "Enden und Öffnungen",
    passage: "Öffnung",
    end: "Ende",
    opening: "Maß der Öffnung",
    envelope: "Maß des Endes",
    passes: "Passt durch",
    fitsWords: (fits) => (fits ? "ja" : "nein"),
  },
}
