"""What is done in pictures whose pose alone does not tell it, by move: three short sentences."""

from __future__ import annotations

Pair = tuple[str, str]
DOINGS: dict[str, tuple[Pair, Pair, Pair]] = {
    "hand_over": (
        ("Holding the load close.", "Sostiene la carga cerca."),
        ("The other person takes hold too.", "La otra persona también la agarra."),
        ("The other person has it now.", "La otra persona ya la tiene."),
    ),
    "fasten": (
        ("Taking hold of both sides.", "Agarra los dos lados."),
        ("Closing the middle.", "Cierra el medio."),
        ("Closing the last one.", "Cierra el último."),
    ),
    "pinch_peg": (
        ("Pressing the peg open.", "Aprieta la pinza para abrirla."),
        ("Putting it over the edge.", "La pone sobre el borde."),
        ("Letting go; the peg stays.", "La suelta; la pinza se queda."),
    ),
    "thread_bead": (
        (
            "The lace in one hand, the bead in the other.",
            "El cordón en una mano, la cuenta en la otra.",
        ),
        ("Pushing it through.", "Lo pasa por el agujero."),
        ("Pulling it on to the others.", "Tira hasta juntarla con las otras."),
    ),
    "pick_put": (
        ("Picking it up.", "Lo toma."),
        ("Carrying it over.", "Lo lleva por el aire."),
        ("Putting it in.", "Lo pone dentro."),
    ),
    "tear_paper": (
        ("Holding the sheet in both hands.", "Sostiene la hoja con las dos manos."),
        ("One hand goes away, one comes near.", "Una mano se aleja y la otra se acerca."),
        ("Going on to the end.", "Sigue hasta el final."),
    ),
    "roll_towel": (
        ("Flat hands at the near edge.", "Manos planas en el borde cercano."),
        ("Rolling it away.", "Enrolla hacia delante."),
        ("Pressing the roll.", "Aprieta el rollo."),
    ),
    "draw_shape": (
        ("Ready to draw.", "Lista la mano para dibujar."),
        ("Drawing along.", "Dibuja."),
        ("Coming back to the start.", "Vuelve al comienzo."),
    ),
    "push_toy": (
        ("A hand on the boat.", "Una mano en el barco."),
        ("Pushing it along.", "Lo empuja."),
        ("Stopping on the mark.", "Se detiene en la marca."),
    ),
    "lean_table": (
        ("Hands flat on the table.", "Manos planas en la mesa."),
        ("Leaning the weight on straight arms.", "Apoya el peso en los brazos estirados."),
        ("Standing or sitting back.", "Vuelve atrás."),
    ),
    "fours_hold": (
        ("Hands flat under the shoulders.", "Manos planas bajo los hombros."),
        ("Holding still.", "Se queda quieto así."),
        ("Looking ahead and holding on.", "Mira adelante y aguanta."),
    ),
    "prone_elbows": (
        ("Getting ready.", "Se prepara."),
        ("Elbows down, head up.", "Codos abajo, cabeza arriba."),
        ("One hand reaches out.", "Una mano se estira."),
    ),
    "climb_on": (
        ("Hands on the step.", "Manos en el escalón."),
        ("One knee up.", "Una rodilla arriba."),
        ("Both knees up.", "Las dos rodillas arriba."),
    ),
    "sock_off": (
        ("Knees bent.", "Rodillas dobladas."),
        ("A foot comes to the hand.", "Un pie va a la mano."),
        ("Head up, pulling the sock.", "Cabeza arriba, tira del calcetín."),
    ),
    "catch_hands": (
        ("Eyes on the ball.", "Los ojos en la pelota."),
        ("Fingers reach for it.", "Los dedos la buscan."),
        ("Caught in the hands.", "Atrapada en las manos."),
    ),
    "push_palm": (
        ("A flat hand on the other's hand.", "Una mano plana sobre la otra mano."),
        ("Pushing it down.", "La empuja abajo."),
        ("It comes up again.", "Vuelve a subir."),
    ),
    "foot_push": (
        ("Looking at the ball.", "Mira la pelota."),
        ("Pushing it away.", "La empuja."),
        ("Watching it roll.", "Mira cómo rueda."),
    ),
    "beat": (
        ("One beat.", "Un golpe."),
        ("The next beat.", "El golpe siguiente."),
        ("Hands up for more.", "Manos arriba para seguir."),
    ),
    "row": (
        ("Reaching out.", "Se estira."),
        ("Pulling in.", "Tira hacia la barriga."),
        ("Reaching out again.", "Se estira otra vez."),
    ),
    "press_hands": (
        ("Hands ready.", "Manos listas."),
        ("Pressing hard.", "Aprieta fuerte."),
        ("Resting.", "Descansa."),
    ),
    "tap_feet": (
        ("Toes up.", "Puntas arriba."),
        ("Feet flat.", "Pies planos."),
        ("Heels up.", "Talones arriba."),
    ),
    "sit_lift": (
        ("Holding the seat.", "Se agarra del asiento."),
        ("Letting go.", "Se suelta."),
        ("Lifting one side and staying still.", "Levanta un lado y se queda quieto."),
    ),
    "land_hands": (
        ("Hands high.", "Manos en alto."),
        ("Landing softly on the knees.", "Caen suaves en las rodillas."),
        ("Staying still.", "Se queda quieto."),
    ),
    "point_at": (
        ("Looking and pointing to the side.", "Mira y señala a un lado."),
        ("Pointing ahead.", "Señala adelante."),
        ("Hand down again.", "Baja la mano."),
    ),
    "hit_off_table": (
        ("Looking at the ball.", "Mira la pelota."),
        ("The hand goes back.", "La mano va atrás."),
        ("Sending it over the table.", "La manda por la mesa."),
    ),
    "tap_plate": (
        ("The plate is flat.", "El plato está plano."),
        ("Tapping up.", "Golpea hacia arriba."),
        ("Waiting under it.", "Espera debajo."),
    ),
    "dribble_walk": (
        ("The hand is on top.", "La mano está encima."),
        ("Pushing it down and walking.", "La empuja y camina."),
        ("It comes up to the hand; the other foot steps.", "Sube a la mano; el otro pie avanza."),
    ),
    "arm_circles": (
        ("A wheel begins.", "Empieza una rueda."),
        ("Over the top.", "Pasa por arriba."),
        ("Nearly round.", "Casi da la vuelta."),
    ),
    "wheel_push": (
        ("Hands on the wheels.", "Manos en las ruedas."),
        ("Pushing ahead.", "Empuja hacia delante."),
        ("Hands stop the wheels.", "Las manos frenan las ruedas."),
    ),
    "lift_over": (
        ("Sitting tall before the roll.", "Sentado ante el rollo."),
        ("Lifting one side over it.", "Levanta un lado por encima."),
        ("Down on the far side.", "Abajo al otro lado."),
    ),
    "lean_out": (
        ("Hands on the lap.", "Manos en las piernas."),
        ("Wings out.", "Alas abiertas."),
        ("Landing softly.", "Aterriza suave."),
    ),
    "curl_sit": (
        ("Sitting tall.", "Sentado y alto."),
        ("Curling up.", "Se enrolla."),
        ("Sitting tall again.", "Alto otra vez."),
    ),
    "show_size": (
        ("Hands near each other: easy.", "Manos cerca: fácil."),
        ("Hands apart: in between.", "Manos separadas: regular."),
        ("Hands far apart: hard.", "Manos muy separadas: difícil."),
    ),
    "lie_breathe": (
        ("Hands on the belly.", "Manos en la barriga."),
        ("The belly rises.", "La barriga sube."),
        ("The belly falls.", "La barriga baja."),
    ),
    "weave": (
        ("The strip before the first slot.", "La tira ante la primera ranura."),
        ("Under one, over one.", "Por debajo de una, por encima de otra."),
        ("Nearly through.", "Casi hasta el final."),
    ),
    "roll_on_floor": (
        ("Hands at the near edge.", "Manos en el borde cercano."),
        ("Rolling it away.", "Enrolla hacia delante."),
        ("Pressing the roll.", "Aprieta el rollo."),
    ),
    "stand_ready": (
        ("Standing at rest.", "En reposo."),
        ("Knees soft.", "Rodillas sueltas."),
        ("Ready.", "Listo."),
    ),
    "one_leg": (
        ("Weight on both sides.", "Peso en los dos lados."),
        ("One heel comes up.", "Un talón sube."),
        ("One knee up.", "Una rodilla arriba."),
    ),
    "walk_line": (
        ("At the start of the line.", "Al comienzo de la línea."),
        ("One foot before the other.", "Un pie delante del otro."),
        ("The back foot comes round.", "El pie de atrás pasa adelante."),
    ),
    "catch_two_hands": (
        ("Eyes on the ball.", "Los ojos en la pelota."),
        ("Reaching for it.", "Se estira hacia ella."),
        ("Hugging it to the tummy.", "La abraza contra la barriga."),
    ),
    "carry_thing": (
        ("Lifting it.", "La levanta."),
        ("Carrying it flat.", "La lleva plana."),
        ("Setting it down.", "La deja en la mesa."),
    ),
    "drop_in": (
        ("Holding something small over the box.", "Sostiene algo pequeño sobre la caja."),
        ("Arm out over it.", "El brazo encima."),
        ("Letting it drop.", "Lo deja caer."),
    ),
    "wipe_table": (
        ("One hand on a cloth.", "Una mano sobre un paño."),
        ("Wiping.", "Limpia."),
        ("Wiping on to the end.", "Limpia hasta el final."),
    ),
    "wipe_wall": (
        ("A cloth flat on the wall.", "Un paño plano en la pared."),
        ("Wiping.", "Limpia."),
        ("Wiping on to the end.", "Limpia hasta el final."),
    ),
    "fold_cloth": (
        ("The cloth lies flat.", "El paño está plano."),
        ("Bringing edge to edge.", "Lleva borde con borde."),
        ("Pressing the fold.", "Aprieta el doblez."),
    ),
    "march": (
        ("One knee up.", "Una rodilla arriba."),
        ("Both down.", "Las dos abajo."),
        ("The other knee up.", "La otra rodilla arriba."),
    ),
    "breathe_belly": (
        ("Hands on the tummy.", "Manos en la barriga."),
        ("Breathing in.", "Toma aire."),
        ("Breathing out.", "Suelta el aire."),
    ),
    "wave_circle": (
        ("Looking at us.", "Nos mira."),
        ("Waving.", "Saluda."),
        ("Waving to the other side.", "Saluda hacia el otro lado."),
    ),
    "sit_table": (
        ("Both hands by the paper.", "Las dos manos junto al papel."),
        ("One hand holds, the other draws.", "Una mano sujeta y la otra dibuja."),
        ("Drawing on.", "Sigue dibujando."),
    ),
    "cut_paper": (
        ("Scissors open.", "Tijeras abiertas."),
        ("Scissors close.", "Tijeras cerradas."),
        ("Open again.", "Abiertas otra vez."),
    ),
    "squeeze": (
        ("Both hands on the ball.", "Las dos manos en la pelota."),
        ("Pressing hard.", "Aprieta fuerte."),
        ("Letting go softly.", "Afloja despacio."),
    ),
    "draw_wall": (
        ("Crayon at the sheet.", "El crayón en el papel."),
        ("Drawing up.", "Dibuja hacia arriba."),
        ("Drawing across.", "Dibuja hacia el lado."),
    ),
    "walk_freeze": (
        ("One foot.", "Un pie."),
        ("The other foot.", "El otro pie."),
        ("Standing quite still.", "Quieto del todo."),
    ),
}
