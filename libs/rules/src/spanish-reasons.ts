/** The rules' reasons in Spanish, by rule id; English ones stand with the rules themselves. */
export const spanishReasons: Readonly<Record<string, string>> = {
  'chlorine-dissipated':
    'El cloro libre mata los organismos para los que se prepara el té. El aire fuerte lo saca con el tiempo; una lectura lo dice con certeza, y por eso vale más que los minutos en un sentido y en otro. Vapores de cloro y reactivos: trabaje con la tapa abierta y use guantes.',
  'chloramine-handled':
    'La cloramina no se va con el aire de una noche como el cloro libre, y lo publicado no se pone de acuerdo en si la vitamina C la neutraliza. Por eso no cuentan las horas ni la dosis, solo el cloro total medido después del tratamiento.',
  'topup-water':
    'El cloro del agua añadida llega a un tanque lleno de vida. No hay tiempo de airearla antes, así que solo cuenta una lectura, o que sea tan poca agua que no importe.',
  'source-tested':
    'La preparación multiplica lo que trae el agua, así que un té de materiales animales cuenta como tratado solo cuando no se detecta E. coli genérica en 100 mL de su agua. Cada vez es un solo resultado; nada se promedia.',
  'source-suitable':
    'El agua superficial sin tratar hace un té sin tratar de lo que entre en ella. Para las otras fuentes, una granja sujeta a la norma revisa una vez al año, por escrito, lo que podría llegar a ellas.',
  'recipe-followed':
    'Una preparación se repite solo cuando se hizo como está escrita, y un tanque llenado menos de lo usual necesita también menos alimento. El doble de alimento en la misma agua es la manera más común de perder el oxígeno.',
  'brew-minimum':
    'Un té sacado temprano ha tenido poco tiempo para que sus organismos crezcan y consuman el alimento. Una preparación acortada es la causa más común de un té que no hace nada, y por eso se mira el tiempo de cada salida.',
  'brew-maximum':
    'Cuando se acaba el alimento los organismos pasan hambre, baja el oxígeno y el té se pasa. Con melaza, pescado u otro alimento microbiano llega antes, y por eso el tiempo es más corto.',
  'air-continuous':
    'Una vez puesto el alimento, los organismos gastan el oxígeno en minutos, o en una hora, cuando el aire se para. Un corte largo puede echar a perder la preparación aunque la lectura de la mañana se vea bien.',
  'oxygen-minimum':
    'El té se mantiene con aire para que los organismos que necesitan oxígeno crezcan más que los que no. Ninguna norma fija una cifra; esta es suya, y una lectura baja corregida pronto pesa menos que una que se dejó así.',
  'oxygen-checked':
    'Un té que se pasa se salva solo mientras alguien mira. El mayor intervalo entre lecturas dice cuánto tiempo nadie lo habría notado; la última antes de sacar dice lo que salió.',
  'oxygen-possible':
    'El agua de una temperatura y una altura sobre el mar dadas contiene solo cierto oxígeno, sea cual sea la bomba. Una lectura muy por encima habla de la sonda, no del té, y no debe tranquilizar a nadie.',
  'temperature-range':
    'El té frío se prepara despacio y el caliente deprisa; y cuanto más caliente el agua, menos oxígeno contiene por encima de su límite. Lo que es demasiado caliente por la tarde muchas veces estaba bien por la mañana.',
  'odour-sound':
    'Un olor agrio o podrido dice que el té se ha quedado sin oxígeno, muestre lo que muestre el medidor. Un té así puede dañar las plantas y se tira, no se aplica.',
  'hold-maximum':
    'Sin aire los organismos gastan el oxígeno que queda, y el té se pasa. El reloj corre desde el último aire que tuvo el té hasta el fin de su aplicación, carga por carga.',
  'input-approved':
    'Lo que se pone en tierra orgánica tiene que estar permitido cuando se usa, y una aprobación puede terminar o ser retirada mientras el tambor sigue en la bodega. Por eso cada lote se mira en el día en que entró, en el tanque y en el equipo de aplicación.',
  'input-in-date':
    'Pasada su fecha, un biológico o un alimento puede ya no ser lo que dice la etiqueta. El proveedor responde por él solo hasta ese día.',
  'input-not-held':
    'Un lote se retiene porque algo de él está abierto: un sello roto, un papel que falta, una duda. Hasta que alguien lo libere, se queda en el estante.',
  'input-recalled':
    'Una retirada dice que el lote nunca fue lo que debía, así que cuenta también para lo preparado antes de que se supiera. Siga el lote hasta sus preparaciones, campos y cosechas antes de que salga nada más.',
  'lot-balance':
    'Lo que entró tiene que explicar lo que salió; un lote usado más allá de lo recibido es lo primero que muestra un balance de masas. Pesar y medir nunca es exacto, así que una diferencia pequeña se deja pasar.',
  'compost-organic':
    'El compost con materiales animales cuenta como compost solo cuando su mezcla, calor, días y volteos están anotados; si no, es estiércol crudo, con la espera del estiércol crudo. Un día que nadie midió no es un día a temperatura.',
  'compost-produce':
    'Solo un proceso del que se sabe que mata patógenos, y cuyos registros muestran que se mantuvo hasta el final, hace de un compost uno tratado. Después del calor se cura, para que nada vuelva a crecer.',
  'treatment-status':
    'Lo que puede hacerse con un té depende de lo que entró en él. Con materiales animales, solo tratados, con agua limpia y sin nutriente añadido, es un té tratado; un aditivo lo hace sin tratar, encuentre lo que encuentre un laboratorio.',
  'additive-tested':
    'Los nutrientes hacen crecer lo que haya en el tanque, lo deseado y lo no deseado. El consejo asesor orgánico pidió dos análisis buenos de un sistema antes de usar su té sin la espera del estiércol crudo, y otros nuevos después de un cambio.',
  'contact-allowed':
    'El té de materiales animales sin tratar no debe tocar los productos mientras se aplica, y el contacto posterior se mantiene bajo. Por eso deciden juntos el método, la parte que se come y si ya estaba ahí.',
  'harvest-interval':
    'Los gérmenes de materia animal cruda mueren en la tierra con el tiempo; la norma orgánica espera 120 días donde lo que se come toca la tierra, 90 en lo demás. Va por el terreno y las fechas, sea cual sea el cultivo que estaba ahí al aplicar el té.',
  'harvest-organic':
    'Un terreno es orgánico solo cuando no se le aplicó nada prohibido en los tres años anteriores a la cosecha. Cuenta en la cosecha: es lo que se vende con esa palabra.',
  'dilution-water':
    'El té rebajado con agua clorada muere camino al campo. El agua superficial sin tratar con que se rebaja lleva al cultivo lo que tenga dentro.',
  'tank-mix':
    'El cobre, el azufre, los jabones y los desinfectantes matan aquello para lo que se aplica el té. Mezclados en el mismo tanque se desperdician los dos.',
  'area-possible':
    'La dosis se calcula con la superficie, así que una superficie mayor que el campo la hace ver menor de lo que fue. Y un campo que nadie registró no se encuentra otra vez en la cosecha.',
  'field-located':
    'Para los alimentos de la lista de trazabilidad, el mapa de la granja muestra cada área de cultivo con sus coordenadas. Con él encuentra una cosecha sobre el terreno alguien que nunca ha estado ahí.',
  'equipment-clean':
    'Un equipo que llevó otra cosa lleva el resto al té y a la tierra orgánica. Que se lavó en medio lo muestra un registro, no la memoria.',
  'equipment-calibrated':
    'La dosis del registro es lo que dieron las boquillas, no lo que dice la tabla. Las boquillas gastadas o cambiadas dan otra cosa, así que la salida se mide cada temporada y después de un cambio.',
  'fill-level':
    'La espuma y el té que gira necesitan sitio bajo la tapa. Llenado por encima del volumen de trabajo, parte del té se derrama por el borde, al suelo y a los cables.',
  'volume-balance':
    'Lo que se llenó tiene que haber ido a algún lado: a un campo, por el borde, a una zanja. Un hueco esconde una aplicación que nadie anotó.',
  'vessel-clean':
    'La película que deja un té en la pared, la línea de aire y los difusores se pudre y siembra el siguiente. Un tanque que se rellena y nunca se vacía cría la misma película, solo más despacio.',
  'vessel-history':
    'El plástico toma lo que contuvo y lo devuelve durante años; ningún lavado saca un plaguicida de un contenedor. De un tanque de pasado desconocido se averigua, o se deja de lado.',
  'instrument-calibrated':
    'Una lectura vale lo que vale su medidor. Las sondas de membrana se desvían a las pocas horas de un cambio de presión, las ópticas y los reactivos en semanas.',
  'instrument-drift':
    'Cuando una revisión encuentra desviado un medidor, nadie sabe desde cuándo. Por eso se mira otra vez cada lectura hasta la última revisión buena, dijera lo que dijera.',
  'tea-supplied':
    'Quien aplica un té hecho en otro lugar tiene que saber qué lleva y cómo se trató. La declaración va con el té; el té vendido puede necesitar además registro como fertilizante donde se vende.',
  'person-trained':
    'El té de materiales animales lo maneja gente que luego toca los productos. Se les capacita al contratarlos y una vez al año, y el registro de ello es de lo primero que pide un inspector.',
  'notify-certifier':
    'Cuando una sustancia prohibida se aplicó al terreno o llegó a él por deriva, se avisa enseguida a la certificadora, sea quien sea el que lo hizo. Lo que la certificadora oye de la granja pesa menos que lo que encuentra un inspector.',
  'certifier-due':
    'Una condición o un aviso trae un día hasta el que se contesta; después está en juego el certificado mismo. Cuenta como contestado una vez anotado un aviso a la certificadora sobre esa carta.',
  'record-timely':
    'Un registro hecho en el lugar vale más que uno hecho de memoria al fin de la semana. Cuenta cuándo se escribió, no cuándo el teléfono encontró señal.',
  'record-complete':
    'Quién aplicó qué, dónde, cuándo, cuánto y cómo es lo que la ley pide encontrar cinco años después. Otro par de ojos mientras la gente aún se acuerda es lo que hace bueno un registro así.',
  'record-consistent':
    'Dos preparaciones con un código, o un lote descrito dos veces, hacen dudoso todo registro posterior sobre ellos. Por ello no se rechaza nada, así que se muestra hasta que alguien diga cuál es el correcto.',
  'reference-known':
    'Los teléfonos entregan tarde y en desorden, así que un registro puede hablar de un lote o un tanque antes de que se conozca. Si sigue así un día, algo se olvidó o se escribió mal.',
  'rule-book-adopted':
    'Un límite cambiado después puede hacer que ayer se vea mejor de lo que fue, así que se enumera lo que cambió un libro de reglas con fecha anterior. Una entrada que no nombra regla no tiene efecto, y una que pide menos que una norma no la levanta.',
};
