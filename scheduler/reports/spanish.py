"""The table of Spanish: every sentence of the change sheet and the field sheet.

Plain words of the yard; see `language` for the slots.
"""

DAYS = {
    "Mon": "lun", "Tue": "mar", "Wed": "mié", "Thu": "jue", "Fri": "vie", "Sat": "sáb",
    "Sun": "dom", "Jan": "ene", "Feb": "feb", "Mar": "mar", "Apr": "abr", "May": "may",
    "Jun": "jun", "Jul": "jul", "Aug": "ago", "Sep": "sep", "Oct": "oct", "Nov": "nov",
    "Dec": "dic",
}  # fmt: skip
UNITS = {
    "in": "pulg", "ft": "pies", "ft²": "pies²", "in/h": "pulg/h", "gpm": "gal/min",
    "gal": "gal", "mph": "mi/h", "psi": "psi", "fl oz": "oz líq", "mm": "mm",
    "cm": "cm", "m": "m", "m²": "m²", "mm/h": "mm/h", "L/min": "L/min", "L": "L",
    "mL": "mL", "kPa": "kPa", "m/s": "m/s", "dS/m": "dS/m", "ha": "ha", "min": "min",
}  # fmt: skip

CHANGE_SHEET = {
    "Change sheet: {raw}": "Hoja de cambios: {raw}",
    "CHANGE SHEET": "HOJA DE CAMBIOS",
    "CLOCK": "CONTROLADOR",
    "nights of {data} to {data2}": "noches del {data} al {data2}",
    "made": "hecha el",
    "side": "cara",
    "of": "de",
    "This sheet replaces every earlier one: throw old sheets away.":
        "Esta hoja sustituye a las anteriores: tire las hojas viejas.",
    "Percent adjust must read": "El ajuste porcentual debe marcar",
    "found at {data}: set it": "estaba en {data}: cámbielo",
    "This sheet has {data} sides: keep them together.":
        "Esta hoja tiene {data} caras: no las separe.",
    "zone, valve": "zona, válvula",
    "zone": "zona",
    "valve": "válvula",
    "station": "estación",
    "program": "programa",
    "was": "antes",
    "NOW": "AHORA",
    "starts, why": "arranques, motivo",
    "keyed": "puesto",
    "new": "cambian",
    "why": "motivo",
    "nights": "noches",
    "also new": "también cambia",
    "minutes": "minutos",
    "cycles": "ciclos",
    "starts": "arranques",
    "no watering this week": "sin riego esta semana",
    "no room on": "no cabe el",
    "OFF": "CERO",
    "off": "apagada",
    "no night": "ninguna noche",
    "every night": "cada noche",
    "every day": "todos los días",
    "= {data} min a night, soak {data2}+ min":
        "= {data} min por noche, espera {data2}+ min",
    "= {data} min a night": "= {data} min por noche",
    "starts: not planned, keep those of the clock":
        "arranques: sin plan, deje los del controlador",
    "{data} on {data2}": "{data}: {data2}",
    "{text} (valve {raw})": "{text} (válvula {raw})",
    "{text}: {data} min, {text2}": "{text}: {data} min, {text2}",
    "{text}: off": "{text}: apagada",
    "LEAVE AS IT IS": "DEJE COMO ESTÁ",
    "its data do not fit together: ask the manager":
        "sus datos no concuerdan: pregunte al encargado",
    "Stays": "Sin cambio",
    "Stays as it is": "Sin cambio",
    "Nothing changes this week.": "Esta semana no cambia nada.",
    "If it rained more than this tonight, skip that zone tonight":
        "Si esta noche llovió más que esto, no riegue esa zona esta noche",
    "If it rained more than this tonight ({raw}), skip tonight:":
        "Si esta noche llovió más que esto ({raw}), no riegue esta noche:",
    "† after midnight, with the date of the clock: the night of {data} ends at "
    "{data2} on {data3}.":
        "† después de medianoche, con la fecha del controlador: la noche del {data} "
        "termina a las {data2} del {data3}.",
    "The night plan does not fit: {data} min short. Ask before keying in.":
        "El plan de la noche no cabe: faltan {data} min. Pregunte antes de ponerlo.",
    "Clock {raw} was found at {data} %: set it to 100 %.":
        "El controlador {raw} estaba en {data} %: póngalo en 100 %.",
    "Keyed in by (initials)": "Puesto por (iniciales)",
    "on (date)": "fecha",
    "at (time)": "hora",
    "Keyed in by": "Puesto por",
    "on": "el",
    "at": "a las",
    "INSTEAD OF THE STARTS ABOVE": "EN LUGAR DE LOS ARRANQUES DE ARRIBA",
    "{raw} cannot hold this week ({data} programs): key in these":
        "{raw} no tiene lugar para esta semana ({data} programas): ponga estos",
    "{raw} cannot hold this week ({data} programs): ask first":
        "{raw} no tiene lugar para esta semana ({data} programas): pregunte antes",
    "{raw} every day; start {data2}; {list}":
        "{raw} todos los días; arranque {data2}; {list}",
    "{raw} {data}; start {data2}; {list}": "{raw} {data}; arranque {data2}; {list}",
    "station {data} ({raw}) {data2} min": "estación {data} ({raw}) {data2} min",
    "{raw} {data} nights ({data2}), {data3} min a week ({text})":
        "{raw} {data} noches ({data2}), {data3} min por semana ({text})",
    "{raw} {data} night ({data2}), {data3} min a week ({text})":
        "{raw} {data} noche ({data2}), {data3} min por semana ({text})",
    "{raw} {data} min a week ({text})": "{raw} {data} min por semana ({text})",
    "as planned": "como el plan",
    "{data} more": "{data} más",
    "{data} less": "{data} menos",
    "{data} more, {data2}": "{data} más, {data2}",
    "{data} less, {data2}": "{data} menos, {data2}",
}  # fmt: skip

REASONS = {
    "first plan": "primer plan",
    "first plan; was as found": "primer plan; antes como se encontró",
    "unchanged": "sin cambio",
    "fixed minutes were changed": "cambiaron los minutos fijos",
    "fixed minutes, whatever the weather": "minutos fijos, con cualquier clima",
    "not due: enough water in store": "no le toca: hay agua guardada",
    "not due this week": "no le toca esta semana",
    "due again": "le toca otra vez",
    "switched off": "apagada",
    "numbers of the week before are unknown": "faltan los datos de la semana pasada",
    "kept, after override of {data}": "igual, tras el cambio a mano del {data}",
    "plan again, after override of {data}": "otra vez el plan, tras cambio del {data}",
    "same minutes, cycles {data} (were {data2})":
        "mismos minutos, ciclos {data} (antes {data2})",
    "{data} nights (were {data2})": "{data} noches (antes {data2})",
    "same minutes, other nights": "mismos minutos, otras noches",
    "soak changed": "cambió la espera",
    "no cause among the key numbers": "sin causa en los números",
    "need {data} this week, DU {data2}": "necesita {data} esta semana, DU {data2}",
    "need {data} this week": "necesita {data} esta semana",
    "weather": "clima",
    "rate": "lámina por hora",
    "learned Kc": "Kc aprendido",
    "Kc": "Kc",
    "bed depth": "lámina en la cama",
    "{text} up {data} %": "{text} sube {data} %",
    "{text} down {data} %": "{text} baja {data} %",
    "{text} changed": "cambió {text}",
    "respaced: {text}": "nueva distancia: {text}",
    "new test: {text}": "prueba nueva: {text}",
    "more rain counted": "cuenta más lluvia",
    "less rain counted": "cuenta menos lluvia",
    "week begins drier": "la semana empieza más seca",
    "week begins wetter": "la semana empieza más mojada",
    "DU {data} (was {data2})": "DU {data} (antes {data2})",
    "rule now {text}": "regla ahora {text}",
    "average": "promedio",
    "low half": "mitad baja",
    "low quarter": "cuarto bajo",
    "share served": "parte servida",
    "low quarter, leached": "cuarto bajo, con lavado",
    "leaching target changed": "cambió la meta de lavado",
    "water short: {data} % kept": "falta agua: queda {data} %",
    "water less short": "falta menos agua",
    "whole minutes": "minutos enteros",
}  # fmt: skip

FIELD_SHEET = {
    "Field sheet": "Hoja de campo",
    "side {data} of {data2}": "cara {data} de {data2}",
    "Date {data}": "Fecha {data}",
    "Date ________________": "Fecha ________________",
    "visit, cans, clock": "visita, vasos, controlador",
    "heads, pressure, flow": "aspersores, presión, caudal",
    "heads, continued": "aspersores, sigue",
    "run {data}": "pasada {data}",
    "plants and water": "plantas y agua",
    "sketch": "croquis",
    "no can": "sin vaso",
    "circle for north and wind": "círculo para el norte y el viento",
    "On file": "Lo que se sabe",
    "Package": "Equipo",
    "Ground": "Terreno",
    "Last test": "Última prueba",
    "Last test, run {raw}": "Última prueba, pasada {raw}",
    "Range": "Margen",
    "{data}, about {data2} heads": "{data}, unos {data2} aspersores",
    "{data}, number of heads not known": "{data}, número de aspersores desconocido",
    "not on file": "no se sabe",
    "spacing not on file": "distancia no anotada",
    "spacing {data}, {text}": "distancia {data}, {text}",
    "nozzle {data}": "boquilla {data}",
    "nominal pressure {data}": "presión nominal {data}",
    "regulator {data}": "regulador {data}",
    "none yet": "ninguna todavía",
    "{data}, {text}: cannot be used: {raw}":
        "{data}, {text}: no sirve; pregunte al encargado",
    "{data}, {text}: as stated by {raw}: net rate {data2}, DU low quarter {data3}":
        "{data}, {text}: según {raw}: lámina {data2}, DU del cuarto bajo {data3}",
    "{data}, {text}: net rate {data2}, DU low quarter {text2}, wind {data4}, {data5} "
    "cans":
        "{data}, {text}: lámina {data2}, DU del cuarto bajo {text2}, viento {data4}, "
        "{data5} vasos",
    "{data}, {text}: net rate {data2}, DU low quarter {text2}, no wind on file, "
    "{data5} cans":
        "{data}, {text}: lámina {data2}, DU del cuarto bajo {text2}, viento no "
        "anotado, {data5} vasos",
    "{data} ({data2}, right {data3} of the time)":
        "{data} ({data2}, acierta {data3} de las veces)",
    "as found": "como se encontró",
    "after tune-up": "después del ajuste",
    "this cell in this run, not another night; cans are taken as independent. Where "
    "neighbouring cans are alike (correlation {data} to {data2}) it held this cell in "
    "{data3} of simulated tests or more, but the zone's other cells in {data4} to "
    "{data5}":
        "esta celda en esta pasada, no otra noche; se toma cada vaso por separado. Si "
        "los vasos vecinos se parecen (correlación {data} a {data2}), acertó esta "
        "celda en {data3} de las pruebas simuladas o más, pero las otras celdas de la "
        "zona en {data4} a {data5}",
    "last {data}": "última vez {data}",
    "last {data}, in doubt": "última vez {data}, en duda",
    "On file: nothing. Write down what stands there before changing it.":
        "No se sabe nada. Anote lo que marca antes de cambiarlo.",
    "On file: {data} in {text}, {text2}.": "Se sabe: {data} en {text}, {text2}.",
    "1 cycle": "1 ciclo",
    "{data} cycles": "{data} ciclos",
    "{data} top": "{data} de boca",
    "{data}, {text}": "{data}, {text}",
    "square": "cuadrado", "rectangular": "rectangular", "triangular": "triangular",
    "offset": "alternado", "cover": "con cubierta", "bare": "sin cubierta",
    "sand": "arena", "loamy sand": "arena franca", "sandy loam": "franco arenoso",
    "loam": "franco", "silt loam": "franco limoso",
    "sandy clay loam": "franco arcillo arenoso", "clay loam": "franco arcilloso",
    "silty clay loam": "franco arcillo limoso", "sandy clay": "arcilla arenosa",
    "silty clay": "arcilla limosa", "clay": "arcilla",
    "Visit": "Visita",
    "Cans": "Vasos", "Clock as found": "Controlador como se encontró",
    "Heads": "Aspersores", "Heads, continued": "Aspersores, sigue",
    "Pressure, flow and meter": "Presión, caudal y medidor",
    "There are more heads than this: take one more sheet.":
        "Hay más aspersores que estos: tome otra hoja.",
    "Site": "Vivero", "Valve": "Válvula", "Date of the test": "Fecha de la prueba",
    "People": "Personas", "Why this test": "Por qué esta prueba", "Water": "Agua",
    "fresh": "limpia", "recycled": "reciclada", "with feed": "con fertilizante",
    "Re-entry time over": "Plazo de reingreso cumplido", "yes": "sí", "no": "no",
    "not sprayed": "no se fumigó", "State of the system": "Estado del sistema",
    "Other zones running": "Otras zonas regando", "as usual": "como siempre",
    "none": "ninguna", "Mouth, inside": "Boca, por dentro",
    "Type of can, all alike": "Tipo de vaso, todos iguales", "Count": "Cantidad",
    "{data} on the map": "{data} en el mapa", "From can to can": "De vaso a vaso",
    "From row to row": "De fila a fila", "Read in": "Se lee en",
    "Program": "Programa", "Minutes": "Minutos", "Cycles": "Ciclos",
    "Start times": "Horas de arranque", "Days": "Días", "Mo": "Lu", "Tu": "Ma",
    "We": "Mi", "Th": "Ju", "Fr": "Vi", "Sa": "Sá", "Su": "Do",
    "Percent adjust": "Ajuste porcentual", "Rain sensor": "Sensor de lluvia",
    "in use": "en uso", "bypassed": "desconectado",
    "Clock time, AM/PM right": "Hora del reloj, AM/PM bien",
    "Other programs, same valve": "Otros programas, misma válvula",
    "Write one letter a head:": "Escriba una letra por aspersor:", "good": "bueno",
    "nozzle missing or odd": "boquilla falta o es otra", "clogged": "tapado",
    "worn": "gastado", "tilted or sunken": "inclinado o hundido",
    "not turning": "no gira", "wrong arc": "arco equivocado",
    "drips or leaks": "gotea o tiene fuga", "plants in the way": "plantas estorban",
    "misting, too much pressure": "niebla, demasiada presión",
    "short throw, too little": "alcance corto, poca presión", "head": "aspersor",
    "what was found": "qué se encontró",
    "mended: before the run, after, no": "arreglado: antes de la pasada, después, no",
    "photo": "foto", "head no.": "aspersor n.º", "pressure, {raw}": "presión, {raw}",
    "bucket, {raw}": "balde, {raw}",
    "seconds": "segundos", "flow, {raw}": "caudal, {raw}",
    "at the valve": "en la válvula", "first head": "primer aspersor",
    "middle head": "aspersor del medio", "last head": "último aspersor",
    "highest or lowest": "el más alto o más bajo",
    "Meter at start": "Medidor al empezar",
    "Meter at stop": "Medidor al terminar", "Meter unit": "Unidad del medidor",
    "Multiplier": "Multiplicador", "Cans as they stand": "Los vasos como están",
    "Start, stop and wind": "Empezar, parar y viento",
    "Notes on cans": "Notas de vasos",
    "In the boxes above:": "En los cuadros de arriba:",
    "None is zero; a dry can is 0. Leave a can out only for a physical reason.":
        "Ninguno es cero; un vaso seco es 0. Deje fuera un vaso solo por una razón "
        "física.",
    "no reading": "sin lectura", "knocked over": "volcado",
    "leaf or canopy in the way": "hoja o planta estorba",
    "overflowed at the rim": "se desbordó",
    "Write what each can caught. Mark every head with a dot where it stands.":
        "Escriba lo que juntó cada vaso. Marque cada aspersor con un punto.",
    "Draw north and the wind into the circle.":
        "Dibuje el norte y el viento en el círculo.",
    "Start": "Empezó", "Stop": "Paró", "Minutes of water": "Minutos de agua",
    "Pressure in the run": "Presión en la pasada",
    "Wind meter: height": "Medidor de viento: altura",
    "Logger's clock": "Reloj del registrador",
    "Control can, set aside": "Vaso testigo, aparte", "and at the end": "y al final",
    "minute": "minuto", "wind, {raw}": "viento, {raw}", "from": "de dónde",
    "can": "vaso", "what happened": "qué pasó", "Plants": "Plantas",
    "Leaching and salt": "Lavado y sal", "Soil and salt": "Suelo y sal",
    "Anything else": "Algo más", "Sketch": "Croquis", "Signed": "Firmas",
    "Heads with their numbers; tape between heads and between rows; pipe, flow and "
    "valve; edges, roads, slope, shade posts; which rows are edge rows; north.":
        "Aspersores con su número; cinta entre aspersores y entre filas; tubo, caudal "
        "y válvula; orillas, caminos, pendiente, postes; qué filas son orilla; norte.",
    "plants": "plantas", "pot": "maceta", "spacing": "distancia",
    "canopy width": "ancho de copa", "closed, %": "cerrado, %",
    "substrate, potted when": "sustrato, cuándo se plantó", "soil": "suelo",
    "root depth": "raíz, hondo",
    "slope": "pendiente", "planted when": "cuándo se plantó",
    "near can": "junto al vaso", "water in, mL": "agua que entra, mL",
    "leached, mL": "lavado, mL", "share leached, %": "parte lavada, %",
    "EC out, dS/m": "CE que sale, dS/m",
    "place": "lugar", "wet to, {raw}": "mojado a, {raw}",
    "minutes until water stood": "minutos hasta charco",
    "minutes until it ran off": "minutos hasta correr",
    "EC of the water": "CE del agua",
    "Feed in the water": "Fertilizante en el agua",
    "Hand-watered spots": "Sitios regados a mano", "Tested by": "Probó",
    "For the nursery": "Por el vivero", "Date": "Fecha",
    "Electrics": "Electricidad", "Pressure": "Presión", "Chemigation": "Químicos",
    "Re-entry": "Reingreso", "Recycled water": "Agua reciclada", "Slips": "Resbalones",
    "Heat": "Calor",
    "Pumps, valves and clocks carry power beside water: isolate first.":
        "Bombas, válvulas y controladores tienen corriente junto al agua: corte antes.",
    "Let pressure off before opening a line, a head or a filter.":
        "Quite la presión antes de abrir un tubo, un aspersor o un filtro.",
    "Injecting needs a backflow device and the label's own directions.":
        "Para inyectar hace falta válvula antirretorno y lo que diga la etiqueta.",
    "After spraying keep out until the label's interval has passed.":
        "Después de fumigar no entre hasta que pase el plazo de la etiqueta.",
    "Not for drinking, washing or misting people; sign the outlets.":
        "No es para beber, lavarse ni rociar a nadie; ponga letreros en las salidas.",
    "Wet paths, hoses and cans trip people; test where you can see.":
        "Caminos mojados, mangueras y vasos hacen caer; pruebe donde se vea.",
    "Walking a block at noon: shade, water, company.":
        "Caminar a mediodía: sombra, agua, compañía.",
    "Local codes, product labels and licensed practice come "
    "before anything shown here.":
        "Las normas locales, las etiquetas y los técnicos con licencia van primero.",
}  # fmt: skip

WORDS = {**CHANGE_SHEET, **REASONS, **FIELD_SHEET}
