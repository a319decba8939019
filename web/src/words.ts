// The page's own words, English and Spanish.
import { SPANISH } from "./spanish";

const english = {
  measure: "Measure", choose: "Choose", check: "Check", buy: "Buy", cut: "Cut", build: "Build", "sign off": "Sign off",
  stages: "Stages", undo: "Undo", redo: "Redo", jobs: "Jobs", "new job": "New job", remove: "Remove",
  "save a copy": "Save a copy", "open a file": "Open a file", print: "Print the sheets", language: "Language", units: "Units",
  "story pole": "Story pole", step: "Step", deck: "deck", ground: "ground",
  "where to hold the tape":
    "Hold the tape level from the deck edge, and plumb from that level down to the ground. Touch a figure to type what you read.",
  "not measured yet": "Not measured yet: these figures only stand in",
  "add a reading": "Add a reading", "take away the last": "Take away the last", "readings on": "Readings on the line",
  left: "left", middle: "middle", right: "right", "more inputs": "Everything else, as it is assumed",
  assumed: "assumed", set: "set", "set it": "Set it", "as assumed": "Leave it as assumed", cancel: "Cancel", feet: "feet",
  inches: "inches", sixteenths: "sixteenths", "or type": "Or type it, as the tape says",
  old: "Old plan: the job as it stands now cannot be planned", planning: "Planning",
  searching: "Searching all stairs that this job allows", "take this one": "Take this one", taken: "Taken",
  "let go": "Back to the stair that fits best", cost: "Cost", hours: "Hours", comfort: "2R + G off",
  strength: "Weakest check", run: "Run", lift: "Landing lift", "rejected": "What no stair of these got past",
  "measure again": "Measure this again before you buy", "stairs searched": "stairs searched",
  "strength checks": "Strength", needed: "limit", measured: "measured", total: "Total", share: "Share",
  "as csv": "As CSV", "as text": "As text", boards: "Boards", "left over": "left over", saw: "Saw settings",
  holes: "Holes to drill", stringers: "Stringers", "marks along": "Marks along the edge, from the first", "as built": "As built",
  "riser read": "Read", "riser planned": "Planned", spread: "Greatest less least", "parts in order": "Parts in the order they go on",
  who: "Your local building department and licensed practice decide what is allowed.",
  caution: "Before you dig, have utilities located. Eyes and ears covered, a mask for treated dust; no open flight overnight.",
  "no stair": "No stair fits the readings", fail: "fail: take a stair that holds under Choose",
  broken: "The engine stopped. Your job is kept; change anything to ask again.",
  drawing: "Drawing", model: "3-D", "no 3-D": "This browser draws nothing in three dimensions. The drawing and the lists hold all of it.",
  turn: "Drag, pinch or use the arrow keys and + and - to look round; touch a part for what it is", corner: "Corner", front: "Front",
  side: "Side", top: "Top", person: "Person", tape: "Tape", "cut open": "Cut open", "level out": "out", across: "across", plumb: "plumb",
  "touch two places": "Touch two places", close: "Close", board: "Board", fasteners: "Fasteners",
  "rules and strength": "Rules and strength", clash: "clash", prices: "Touch a price to put in your yard's; the order is then the cheapest at those", "price of one": "Price of one",
  "demo price": "demo price", "save the packet": "Save the packet", "remove for good": "Remove for good", "add one": "Add one",
  tongue: "Square, tongue", body: "Square, body", "step length": "Step along the edge", drop: "Drop", throat: "Throat",
  "plumb cut": "Plumb cut", face: "Face", along: "Along", drill: "Drill", "part before": "Part before", "next part": "Next part",
  "whole stair": "Whole stair", "newer page": "A newer page is here.", "change to it": "Change to it",
  value: "Value", "cannot plan": "These inputs cannot be planned: see above", weakest: "weakest", "read less planned": "Off by", "all risers": "All risers",
};
export type Word = keyof typeof english;
const spanish: Record<Word, string> = {
  measure: "Medir", choose: "Elegir", check: "Revisar", buy: "Comprar", cut: "Cortar", build: "Montar", "sign off": "Entregar",
  stages: "Etapas", undo: "Deshacer", redo: "Rehacer", jobs: "Trabajos", "new job": "Trabajo nuevo", remove: "Quitar",
  "save a copy": "Guardar una copia", "open a file": "Abrir un archivo", print: "Imprimir las hojas", language: "Idioma", units: "Unidades",
  "story pole": "Vara de alturas", step: "Peldaño", deck: "terraza", ground: "suelo",
  "where to hold the tape":
    "Ponga la cinta a nivel desde el borde de la terraza y a plomo desde ese nivel hasta el suelo. Toque una cifra para escribir la lectura.",
  "not measured yet": "Sin medir todavía: estas cifras son solo provisionales",
  "add a reading": "Añadir una lectura", "take away the last": "Quitar la última", "readings on": "Lecturas en la línea",
  left: "izquierda", middle: "centro", right: "derecha", "more inputs": "Todo lo demás, tal como se supone",
  assumed: "supuesto", set: "fijado", "set it": "Fijar", "as assumed": "Dejar como se supone", cancel: "Cancelar", feet: "pies",
  inches: "pulgadas", sixteenths: "dieciseisavos", "or type": "O escríbalo como dice la cinta",
  old: "Plan antiguo: el trabajo tal como está ahora no se puede planear", planning: "Planeando",
  searching: "Buscando todas las escaleras que permite este trabajo", "take this one": "Tomar esta", taken: "Tomada",
  "let go": "Volver a la que mejor cabe", cost: "Coste", hours: "Horas", comfort: "2R + G desviado",
  strength: "Control más débil", run: "Desarrollo", lift: "Alza del rellano", rejected: "Lo que ninguna de estas superó",
  "measure again": "Mida esto otra vez antes de comprar", "stairs searched": "escaleras revisadas",
  "strength checks": "Resistencia", needed: "límite", measured: "medido", total: "Total", share: "Compartir",
  "as csv": "Como CSV", "as text": "Como texto", boards: "Tablas", "left over": "sobrante", saw: "Ajustes de sierra",
  holes: "Taladros", stringers: "Zancas", "marks along": "Marcas por el canto, desde la primera", "as built": "Como quedó",
  "riser read": "Leído", "riser planned": "Planeado", spread: "Mayor menos menor", "parts in order": "Piezas en orden de montaje",
  who: "Deciden la autoridad local de construcción y los profesionales con licencia.",
  caution: "Antes de cavar, haga localizar los servicios. Ojos y oídos protegidos, mascarilla para el polvo tratado; ningún tramo abierto de noche.",
  "no stair": "Ninguna escalera cabe en las lecturas", fail: "fallan: tome en Elegir una escalera que aguante",
  broken: "El motor se detuvo. Su trabajo está guardado; cambie algo para preguntar de nuevo.",
  drawing: "Dibujo", model: "3-D", "no 3-D": "Este navegador no dibuja en tres dimensiones. El dibujo y las listas lo contienen todo.",
  turn: "Arrastre, pellizque o use las flechas y + y - para mirar alrededor; toque una pieza para saber qué es", corner: "Esquina", front: "Frente",
  side: "Lado", top: "Arriba", person: "Persona", tape: "Cinta", "cut open": "Corte", "level out": "hacia fuera", across: "a lo ancho", plumb: "a plomo",
  "touch two places": "Toque dos lugares", close: "Cerrar", board: "Tabla", fasteners: "Fijaciones",
  "rules and strength": "Normas y resistencia", clash: "choque", prices: "Toque un precio para poner el de su almacén; el pedido es entonces el más barato con ellos", "price of one": "Precio de uno",
  "demo price": "precio de muestra", "save the packet": "Guardar el paquete", "remove for good": "Quitar del todo", "add one": "Añadir",
  tongue: "Escuadra, brazo corto", body: "Escuadra, brazo largo", "step length": "Paso por el canto", drop: "Rebaje del pie", throat: "Garganta",
  "plumb cut": "Corte a plomo", face: "Cara", along: "A lo largo", drill: "Broca", "part before": "Pieza anterior", "next part": "Pieza siguiente",
  "whole stair": "Escalera entera", "newer page": "Hay una página más nueva.", "change to it": "Cambiar a ella",
  value: "Valor", "cannot plan": "Con estos datos no hay plan: vea arriba", weakest: "lo más débil", "read less planned": "Diferencia", "all risers": "Todas las alturas",
};
export type Language = "en" | "es";
export const LANGUAGES: Record<Language, string> = { en: "English", es: "Español" };
let language: Language = "en";
export const setLanguage = (to: Language): void => void (language = to);
export const say = (word: Word): string => (language === "es" ? spanish : english)[word];
/** A word or sentence of the engine, in the page's language where it is known. */
export const term = (word: string): string => (language === "es" ? (SPANISH[word] ?? word) : word);
