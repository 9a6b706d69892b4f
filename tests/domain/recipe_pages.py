"""Recipe files to read: the vocabulary's own example, and others written for these tests.

`BANANA_BREAD_OLDER` is the JSON-LD of the example "Recipe, NutritionInformation" in the file
data/examples.txt of the public repository schemaorg/schemaorg, word for word (schema.org,
CC BY-SA 3.0). `BANANA_BREAD` is the same example as the page schema.org/Recipe has it since, with
`recipeIngredient` and `suitableForDiet`, word for word from a published copy of that page (same
licence). The others follow the vocabulary's definitions and are written for these tests.
"""

from __future__ import annotations

BANANA_BREAD_OLDER = """
{
  "@context": "http://schema.org",
  "@type": "Recipe",
  "author": "John Smith",
  "cookTime": "PT1H",
  "datePublished": "2009-05-08",
  "description": "This classic banana bread recipe comes from my mom -- the walnuts add a nice texture and flavor to the banana bread.",
  "image": "bananabread.jpg",
  "ingredients": [
    "3 or 4 ripe bananas, smashed",
    "1 egg",
    "3/4 cup of sugar"
  ],
  "interactionCount": "UserComments:140",
  "name": "Mom's World Famous Banana Bread",
  "nutrition": {
    "@type": "NutritionInformation",
    "calories": "240 calories",
    "fatContent": "9 grams fat"
  },
  "prepTime": "PT15M",
  "recipeInstructions": "Preheat the oven to 350 degrees. Mix in the ingredients in a bowl. Add the flour last. Pour the mixture into a loaf pan and bake for one hour.",
  "recipeYield": "1 loaf"
}
"""  # noqa: E501

BANANA_BREAD = """
<script type="application/ld+json">
{
  "@context": "https://schema.org",
  "@type": "Recipe",
  "author": "John Smith",
  "cookTime": "PT1H",
  "datePublished": "2009-05-08",
  "description": "This classic banana bread recipe comes from my mom -- the walnuts add a nice texture and flavor to the banana bread.",
  "image": "bananabread.jpg",
  "recipeIngredient": [
    "3 or 4 ripe bananas, smashed",
    "1 egg",
    "3/4 cup of sugar"
  ],
  "interactionStatistic": {
    "@type": "InteractionCounter",
    "interactionType": "https://schema.org/Comment",
    "userInteractionCount": "140"
  },
  "name": "Mom's World Famous Banana Bread",
  "nutrition": {
    "@type": "NutritionInformation",
    "calories": "240 calories",
    "fatContent": "9 grams fat"
  },
  "prepTime": "PT15M",
  "recipeInstructions": "Preheat the oven to 350 degrees. Mix in the ingredients in a bowl. Add the flour last. Pour the mixture into a loaf pan and bake for one hour.",
  "recipeYield": "1 loaf",
  "suitableForDiet": "https://schema.org/LowFatDiet"
}
</script>
"""  # noqa: E501

CHOWDER_PAGE = """
<!doctype html><html><head><title>Chowder &amp; more</title>
<script>var noise = {"@type": "Recipe"};</script>
<script type="application/ld+json">{ this is broken </script>
<script type='application/ld+json; charset=utf-8'>//<![CDATA[
{"@context": {"@vocab": "https://schema.org/"}, "@graph": [
  {"@type": "WebSite", "@id": "#site", "name": "The galley"},
  {"@type": "Person", "@id": "#cook", "name": "A. Cook"},
  {"@type": ["Thing", "Recipe"], "name": "Cod &amp; pea chowder", "url": "https://example.org/cod",
   "author": {"@id": "#cook"},
   "recipeYield": ["6", "6 servings"],
   "prepTime": "PT20M", "cookTime": "PT0M", "totalTime": "PT1H30M",
   "recipeIngredient": ["1 cup (150 g) peas, thawed", "\\u00bd cup white wine",
     "500 ml water", "For the top:", "2 lbs cod &ndash; in chunks", "", "salt to taste"],
   "recipeInstructions": [
     {"@type": "HowToStep", "text": "Render <b>slowly</b>."},
     {"@type": "HowToSection", "name": "For the broth", "itemListElement": [
       {"@type": "HowToStep", "text": "Add the wine &amp; reduce.<br>Stir."},
       {"@type": "HowToSection", "name": "At the end:", "itemListElement": [
         {"@type": "HowToStep", "itemListElement": [
           {"@type": "HowToDirection", "text": "Add cream."},
           {"@type": "HowToTip", "text": "Never boil it."}]}]}]},
     {"@type": "HowToStep", "name": "Serve."},
     "Eat."],
   "nutrition": {"@type": "NutritionInformation", "servingSize": "1 bowl",
     "calories": "310 kcal", "saturatedFatContent": "4 g", "proteinContent": "22 g"},
   "aggregateRating": {"@type": "AggregateRating", "ratingValue": 5}},
  {"@type": "schema:Recipe", "schema:name": "Toast", "schema:recipeYield":
     {"@type": "QuantitativeValue", "value": 2, "unitText": "people"},
   "schema:recipeIngredient": "2 slices bread\\n10 g butter",
   "schema:recipeInstructions": "1. Toast.\\n2. Butter.", "schema:cookTime": "5 minutes"}
]}
//]]></script></head><body><p>Not JSON-LD.</p></body></html>
"""
"""A saved page: a graph of two recipes after a script that is broken."""
