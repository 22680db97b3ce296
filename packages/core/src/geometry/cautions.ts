/** Cautions printed with results, where people or animals can be hurt. */

export const weightCaution =
  "Arithmetic only. Whether a floor, shelf or stand carries this is for a structural engineer and the makers: ask one for a suspended or timber floor, more than 300 kg, or any doubt.";

export const stoneCaution =
  "Stand heavy stones on the floor pane or a mat before the substrate goes in, so that digging cannot topple them; a falling stone breaks glass.";

export const changeCaution =
  "Match temperature and remove chlorine or chloramine before water reaches the animals; large changes also shift hardness and pH.";
