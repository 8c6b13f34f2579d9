/** German words for what comes after the last step. */
import { list, some } from "./de-phrases.ts"
import type { Words } from "./types.ts"

/** Inspection, aftercare, trouble, removal, and what the guide says about itself. */
export const deAfter: Pick<Words, "after" | "trouble" | "removal" | "about"> = {
  after: {
    inspectionIntro: "Jede Zeile abhaken, bevor Sie das Gerät benutzen.",
    jointTight: (items, torque) =>
      torque === undefined ? `${items} fest, jeder Kopf liegt auf.` : `${items} mit ${torque} angezogen.`,
    tieClosed: (items, until) =>
      until === undefined
        ? `${items} geschlossen, von Hand nicht beweglich.`
        : `${items} geschlossen, so dass gilt: ${until}.`,
    padSits: (items) => `${items} flach aufgeklebt.`,
    cableConnected: (end, socket) => `${end} an ${socket} angeschlossen.`,
    cableThrough: (cable, passage) => `${cable} läuft durch ${passage}.`,
    glandTight: (gland, cable) => `${gland} fest: ${cable} lässt sich darin weder ziehen noch drehen.`,
    tickedAt: (line, step) => `${line} (abgehakt in ${step}).`,
    onTable: "Auf dem Tisch liegt nur dies und sonst nichts:",
    leftElse: "Bleibt etwas anderes übrig: zurück zum Schritt, der es verwendet.",
    leftTools: "Ihr Werkzeug.",
    leftPiece: (what) => `${some(what)}: von Ihrem Gerät abgenommen.`,
    leftSpare: (items) => `${items}: Ersatz.`,
    leftOwn: (screws, bag) =>
      `${screws}: eigene Schrauben Ihres Geräts${bag === undefined ? "" : `, im Beutel „${bag}“`}. Für den Abbau aufbewahren.`,
    leftMore: "Abgeschnittene Enden der Binder und Verpackung.",
    retighten: (items, torque) =>
      torque === undefined ? `Prüfen, ob die Köpfe aufliegen: ${items}.` : `${items} mit ${torque} nachziehen.`,
    retightenBehind: (covers) => `Dazu erst abnehmen, wie unter „Abbau und Entsorgung“: ${list(covers)}.`,
    retightenWhen: "Nach 24 Stunden und nach vier Wochen:",
    retightenWhy: "Kunststoff unter einem Schraubenkopf setzt sich, und die Klemmkraft sinkt.",
    ties: "Einmal im Jahr die Binder ansehen. Binder ersetzen, wenn sie rissig, an der Biegung weiß oder locker sind.",
    tiesSun: "Sonnenlicht macht Binder aus Kunststoff spröde: zweimal im Jahr ansehen.",
    practice: "Die Abstände sind übliche Praxis, kein geprüfter Wert.",
    salt: "Salz mit Süßwasser abspülen und die Schrauben auf Rost ansehen.",
    nothing: "Dieser Bausatz braucht keine regelmäßige Pflege. Nach dem Versetzen die Schrauben prüfen.",
  },

  trouble: {
    what: "Was Sie sehen",
    todo: "Was zu tun ist",
    missing: "Ein Teil fehlt oder ist beschädigt",
    missingTodo: (kit, contact) =>
      `Nicht durch Ähnliches ersetzen. Positionsnummer und „${kit}“ senden an ${contact === "" ? "den Anbieter" : contact}.`,
    noFit: "Ein Teil passt nicht",
    noFitTodo: (hasTube, hasUnit) => {
      const own = [...(hasTube ? ["Maß des Rohrs"] : []), ...(hasUnit ? ["Typ des Geräts"] : [])]
      const withPage = own.length === 0 ? "" : `${list(own)} mit Seite 1 vergleichen. `
      return `Keine Gewalt anwenden. ${withPage}Das Teil mit dem Bild vergleichen. Dann den Anbieter fragen.`
    },
    stiff: "Eine Schraube geht von Anfang an schwer",
    stiffTodo:
      "Herausdrehen. Gerade aufsetzen, rückwärts drehen, bis sie in den Gewindegang fällt, dann neu von Hand ansetzen.",
    stripsMetal: (items) => `Eine Schraube dreht durch, ohne fester zu werden: ${items}`,
    stripsMetalTodo: "Aufhören. Das Gewinde ist beschädigt. Baugruppe nicht benutzen. Den Anbieter fragen.",
    stripsPlastic: (items) => `Eine Schraube dreht im Kunststoff durch: ${items}`,
    stripsPlasticTodo:
      "Aufhören. Das Gewinde im Kunststoff hält nicht mehr. Keine längere Schraube nehmen. Das Teil neu bestellen.",
    plug: (end, passage) => `${end} geht nicht durch: ${passage}`,
    plugTodo:
      "Den Stecker nicht abschneiden. Prüfen, ob die Variante auf Seite 1 stimmt und der Schritt davor erledigt ist.",
    checkFails: "Eine Prüfung trifft nicht zu",
    checkFailsTodo: "Zurück zu dem Schritt, dessen Bild anders aussieht. Erst weitermachen, wenn die Prüfung zutrifft.",
  },

  removal: {
    intro: "Den Bausatz in dieser Reihenfolge abbauen:",
    hazards: "Die Sicherheitshinweise der Schritte gelten auch hier.",
    honest: "Diese Reihenfolge ist rechnerisch bewiesen. Niemand hat sie erprobt.",
    neededAgain: (items) => `Für eine neue Montage brauchen Sie neu: ${list(items)}.`,
    stuck: (acts) => `Das lässt sich nicht rückgängig machen: ${acts.join("; ")}.`,
    takeOut: (items, tool) => `${items}${tool === undefined ? "" : ` mit ${tool}`} herausdrehen`,
    takeOff: (what, position) => `${some(what)} abnehmen${position === undefined ? "" : `, Position „${position}“`}`,
    cutTie: (items, isCarrying) =>
      `${isCarrying ? "Festhalten, was daran hängt, dann " : ""}${items} öffnen oder durchschneiden; Durchgeschnittenes nicht wieder verwenden`,
    peel: (items) => `${items} abziehen; nicht wieder verwenden`,
    putBack: (what) => `${some(what)} wieder einsetzen`,
    ownScrewsBack: (items, torqueHint) => `Eigene Schrauben des Geräts wieder eindrehen: ${items}; ${torqueHint}`,
    changeOneByOne: (items, own, torqueHint) =>
      `Einzeln nacheinander wechseln: ${items} gegen die eigenen Schrauben des Geräts, ${own}; ${torqueHint}`,
    ownTorque: "Drehmoment nach der Anleitung des Geräts",
    disposal: "Kunststoff, Metall und Elektronik trennen und bei der örtlichen Sammelstelle abgeben.",
  },

  about: {
    orderIntro:
      "Die Reihenfolge ist rechnerisch bewiesen. An diesen Stellen scheint eine andere möglich, sie geht aber nicht:",
    orderLine: (first, then, reason) =>
      reason === undefined ? `Erst ${first}, dann ${then}.` : `Erst ${first}, dann ${then}: ${reason}.`,
    feedFirst: (end, passage) =>
      `Erst ${end} durchführen (${passage}), dann anschließen: ein angeschlossenes Ende geht nicht mehr hindurch.`,
    otherEnd: (end, other, otherSize, passage, opening) =>
      `${end} durchführen, nicht ${other}: ${other} (${otherSize}) geht nicht durch ${passage} (${opening}).`,
    losses: {
      inPlace: (name) => `${name} ist danach im Weg`,
      loose: (name) => `${name} muss dafür noch lose in der Hand liegen`,
      closed: (name) => `${name} ist danach geschlossen`,
      tight: (joint) => `die Schrauben sind danach fest: ${joint}`,
      threaded: (cable, passage) => `${cable} läuft danach durch ${passage}`,
    },
    torqueHeading: "Woher die Drehmomente kommen",
    torqueOrigin: "Herkunft",
    torqueNote:
      "Berechnete Drehmomente sind Startwerte. Jeden Wert an einem Muster prüfen, bevor Sie sich auf ihn verlassen.",
    torqueMaker: (tried) => (tried === undefined ? "Wert des Herstellers" : `Wert des Herstellers, erprobt: ${tried}`),
    torqueComputed: "berechneter Startwert",
    document: (kit, variant, revision, date, language) =>
      `Bausatz ${kit}, Variante ${variant}, Ausgabe ${revision} vom ${date}, Sprache ${language}.`,
    newest: "Die neueste Ausgabe steht hier:",
    rules:
      "Aus geprüften Daten erzeugt: Reihenfolge der Schritte, Stückzahlen und Passungen dieser Variante sind berechnet.",
    pageOf: (page, pages) => `Seite ${page} von ${pages}`,
  },
}
